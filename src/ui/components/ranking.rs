//! Finding a thing by a few letters of what it is called.

/// How well a name answers a query: the smaller the better, `None` when it does not at all.
///
/// Best is a name that begins with the query, then one with a word that does, then one in which
/// every word of the query begins some word, then one that holds them all, then one whose letters
/// stand in it in this order.
#[must_use]
pub fn rank(query: &str, name: &str) -> Option<u8> {
    let query = query.trim().to_lowercase();
    let name = name.to_lowercase();
    if name.starts_with(&query) {
        return Some(0);
    }
    let is_break = |c: char| !(c.is_alphanumeric() || matches!(c, '/' | '.' | '#'));
    let begins = |part: &str| {
        name.match_indices(part).any(|(at, _)| name[..at].chars().next_back().is_none_or(is_break))
    };
    if begins(&query) {
        return Some(1);
    }
    if query.split_whitespace().all(begins) {
        return Some(2);
    }
    if query.split_whitespace().all(|part| name.contains(part)) {
        return Some(3);
    }
    let mut letters = name.chars();
    let in_order = query
        .chars()
        .filter(|c| !c.is_whitespace())
        .all(|wanted| letters.any(|letter| letter == wanted));
    in_order.then_some(4)
}

/// The places of the names that answer a query, best first, equal ones in their old order.
#[must_use]
pub fn ranked<'a>(query: &str, names: impl IntoIterator<Item = &'a str>) -> Vec<usize> {
    let mut found: Vec<(u8, usize)> = names
        .into_iter()
        .enumerate()
        .filter_map(|(place, name)| rank(query, name).map(|rank| (rank, place)))
        .collect();
    found.sort_by_key(|&(rank, _)| rank);
    // Letters in order are a last resort: they would bury the names that hold the words.
    if found.first().is_some_and(|&(best, _)| best < 4) {
        found.retain(|&(rank, _)| rank < 4);
    }
    found.into_iter().map(|(_, place)| place).collect()
}
