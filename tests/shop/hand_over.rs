//! One thing handed over as a code: whole, small, and legible through oil.

use handwheel::shop::{
    document::Document,
    hand_over::{Picture, code_of, picture, read},
    incoming::join,
    sample::sample,
};
use proptest::prelude::*;

const ADDRESS: &str = "https://shop.example.org/handwheel/take#";

/// Everything of the sample that can be handed over.
fn all(shop: &Document) -> Vec<(&'static str, String)> {
    let mills = shop.machines.iter().map(|own| ("machines", own.id.clone()));
    let cutters = shop.cutters.iter().map(|own| ("cutters", own.id.clone()));
    let favorites = shop.favorites.iter().map(|own| ("favorites", own.id.clone()));
    mills.chain(cutters).chain(favorites).collect()
}

/// The drawing as grey dots, so many to a square.
fn dots(picture: &Picture, dots: usize, oily: impl Fn(usize, usize) -> bool) -> Vec<Vec<u8>> {
    let side = picture.side * dots;
    let mut shown = vec![vec![230; side]; side];
    for run in picture.path.split('M').skip(1) {
        let (x, rest) = run.split_once(' ').expect("a place");
        let (y, rest) = rest.split_once('h').expect("a row");
        let (length, _) = rest.split_once('v').expect("a length");
        let [x, y, length] = [x, y, length].map(|n| n.parse::<usize>().expect("a number") * dots);
        for row in &mut shown[y..y + dots] {
            row[x..x + length].fill(20);
        }
    }
    for (y, row) in shown.iter_mut().enumerate() {
        for (x, dot) in row.iter_mut().enumerate() {
            if oily(x / dots, y / dots) {
                *dot = 128;
            }
        }
    }
    shown
}

/// What another program reads in a picture.
fn seen(shown: &[Vec<u8>]) -> Option<String> {
    let mut image =
        rqrr::PreparedImage::prepare_from_greyscale(shown.len(), shown.len(), |x, y| shown[y][x]);
    let grids = image.detect_grids();
    grids.first()?.decode().ok().map(|(_, text)| text)
}

#[test]
fn what_is_handed_over_arrives_as_it_was() {
    let shop = sample();
    for (list, id) in all(&shop) {
        let code = code_of(&shop, list, &id).expect("it is there");
        let took = read(&code).unwrap_or_else(|problem| panic!("{id}: {problem}"));
        let one = (took.machines.len(), took.cutters.len(), took.favorites.len());
        match list {
            "machines" => assert!(one == (1, 0, 0) && shop.machines.contains(&took.machines[0])),
            "cutters" => assert!(one == (0, 1, 0) && shop.cutters.contains(&took.cutters[0])),
            _ => assert!(one == (0, 0, 1) && shop.favorites.contains(&took.favorites[0])),
        }
    }
    assert_eq!(code_of(&shop, "machines", "sold"), None);
    assert_eq!(code_of(&shop, "nothing", "bench_mill"), None);
}

#[test]
fn another_program_reads_the_picture_through_oil() {
    let shop = sample();
    for (list, id) in all(&shop) {
        let code = code_of(&shop, list, &id).expect("it is there");
        let link = format!("{ADDRESS}{code}");
        let drawn = picture(ADDRESS, &code).expect("it fits");
        assert_eq!(seen(&dots(&drawn, 4, |_, _| false)), Some(link.clone()), "{id}");
        // On 360 px of a small phone a camera wants some three to a square.
        assert!(360 / drawn.side >= 3, "{id}: {} squares, {} letters", drawn.side, code.len());
        // A thumb's print as large as a tenth of the picture, off the corners it is found by.
        let (middle, radius) = (drawn.side as f64 / 2.0, drawn.side as f64 * 0.16);
        let print = |x: usize, y: usize| {
            let (x, y) = (x as f64 - middle - 3.0, y as f64 - middle - 3.0);
            x * x + y * y < radius * radius
        };
        assert_eq!(seen(&dots(&drawn, 4, print)), Some(link), "{id} under oil");
    }
}

#[test]
fn a_code_may_be_pasted_with_its_link_in_small_letters_and_in_pieces() {
    let shop = sample();
    let code = code_of(&shop, "machines", "knee_mill").expect("there");
    let whole = read(&code).expect("a code");
    let pieces: String = code
        .chars()
        .enumerate()
        .map(|(n, c)| if n % 5 == 4 { format!("{c}\n ") } else { c.into() })
        .collect();
    for pasted in [format!("{ADDRESS}{code}"), code.to_lowercase(), pieces, format!("  {code} ")] {
        assert_eq!(read(&pasted).as_ref(), Ok(&whole));
    }
}

#[test]
fn what_is_no_code_is_a_sentence() {
    let code = code_of(&sample(), "machines", "knee_mill").expect("there");
    for (pasted, says) in [
        (String::new(), "no code"),
        ("hello".to_owned(), "no code"),
        ("AAAA".to_owned(), "no code"),
        (code[..code.len() - 8].to_owned(), "not all of one"),
        (code[8..].to_owned(), "not all of one"),
        ("A".repeat(100_000), "more than 5000 letters"),
        ("https://shop.example.org/".to_owned(), "no code"),
    ] {
        let problem = read(&pasted).expect_err(says);
        assert!(problem.contains(says) && problem.ends_with('.'), "{problem}");
    }
}

#[test]
fn what_is_taken_in_stands_beside_what_is_here() {
    let mut theirs = sample();
    theirs.machines[0].form.name = "Garage mill".into();
    let code = code_of(&theirs, "machines", "bench_mill").expect("there");
    let mut here = sample();
    here.sample = false;
    let joined = join(&here, &read(&code).expect("a code")).expect("one shop");
    assert_eq!(joined.document.machines.len(), 3);
    assert_eq!(joined.both, ["Garage mill"]);
}

proptest! {
    /// One letter read wrongly is noticed: a figure never arrives as another one.
    #[test]
    fn a_letter_read_wrongly_is_noticed(at in any::<prop::sample::Index>(), by in 1..32_usize) {
        const LETTERS: &[u8; 32] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZ234567";
        let shop = sample();
        let mut code = code_of(&shop, "cutters", &shop.cutters[0].id).expect("there").into_bytes();
        // The last letter may hold bits that say nothing.
        let at = at.index(code.len() - 1);
        let letter = LETTERS.iter().position(|letter| *letter == code[at]).expect("a letter");
        code[at] = LETTERS[(letter + by) % 32];
        prop_assert!(read(&String::from_utf8(code).expect("letters")).is_err());
    }

    #[test]
    fn nothing_that_is_pasted_breaks_anything(pasted in "[A-Z2-7]{0,200}") {
        if let Err(problem) = read(&pasted) {
            prop_assert!(problem.ends_with('.'));
        }
    }
}
