//! Orders: the three simple ones, and what makes one.

use super::{Batch, Mill};

/// Where an operation is set up.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stand {
    /// Which mill.
    pub mill: usize,
    /// Which place on its table.
    pub stand: usize,
}

/// One operation on some pieces, one after the other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Run {
    /// Which operation.
    pub operation: usize,
    /// From this piece to before that one, counted from 0.
    pub pieces: (u32, u32),
}

/// An order: where each operation is set up, and what is done after what.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Order {
    /// For each operation.
    pub stands: Vec<Stand>,
    /// In turn.
    pub runs: Vec<Run>,
    /// Nothing stays set up from one run to the next.
    pub anew: bool,
}

/// The kinds of order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Way {
    /// Every piece right through on one mill, set up anew for each operation.
    PieceByPiece,
    /// One operation on all pieces, then the next.
    OperationByOperation,
    /// Every piece right through two mills, the second kept set up.
    TwoMills,
    /// The best that the search finds.
    Mixed,
}

/// Why a simple order cannot be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Blocked {
    /// No mill can do every operation.
    NoOneMill,
    /// The operations cannot be divided between two mills.
    NoTwoMills,
}

/// Every piece right through on one mill; each operation is set up anew for every piece.
///
/// # Errors
/// When no mill can do every operation.
pub fn piece_by_piece(batch: &Batch) -> Result<Order, Blocked> {
    let can_all = |mill: &usize| batch.operations.iter().all(|op| op.mills.contains(mill));
    let mill = (0..batch.mills.len()).find(can_all).ok_or(Blocked::NoOneMill)?;
    let stands = vec![Stand { mill, stand: 0 }; batch.operations.len()];
    Ok(Order { stands, runs: each_right_through(batch), anew: true })
}

/// One operation on all pieces, then the next, with as few walks as the mills allow.
#[must_use]
pub fn operation_by_operation(batch: &Batch) -> Order {
    let route = batch.route();
    let on = fewest_walks(batch, &route);
    Order {
        stands: on.into_iter().map(|mill| Stand { mill, stand: 0 }).collect(),
        runs: route
            .into_iter()
            .map(|operation| Run { operation, pieces: (0, batch.pieces) })
            .collect(),
        anew: false,
    }
}

/// Every piece right through two mills: the first operations on one, the others on the second,
/// which stays set up.
///
/// # Errors
/// When no two mills can share them so.
pub fn two_mills(batch: &Batch) -> Result<Order, Blocked> {
    let route = batch.route();
    let runs = each_right_through(batch);
    let mills = 0..batch.mills.len();
    // One operation alone is carried to the second mill from where the blanks lie.
    let shares = if route.len() == 1 { 0..1 } else { 1..route.len() };
    let mut best: Option<(f64, Order)> = None;
    for first in mills.clone() {
        for second in mills.clone().filter(|mill| *mill != first) {
            for share in shares.clone() {
                if share == 0 && batch.blanks_at != Some(first) {
                    continue;
                }
                let mut on = vec![second; batch.operations.len()];
                route[..share].iter().for_each(|o| on[*o] = first);
                if !on.iter().zip(&batch.operations).all(|(mill, op)| op.mills.contains(mill)) {
                    continue;
                }
                let stands = stands(batch, &on, &route);
                let order = Order { stands, runs: runs.clone(), anew: false };
                let total = super::timetable::Timetable::of(batch, &order).figures.total;
                let total = total.to_second();
                if best.as_ref().is_none_or(|(least, _)| total < *least - 1e-9) {
                    best = Some((total, order));
                }
            }
        }
    }
    best.map(|(_, order)| order).ok_or(Blocked::NoTwoMills)
}

/// Every piece through every operation before the next one is begun.
fn each_right_through(batch: &Batch) -> Vec<Run> {
    let route = batch.route();
    (0..batch.pieces)
        .flat_map(|piece| {
            route.iter().map(move |o| Run { operation: *o, pieces: (piece, piece + 1) })
        })
        .collect()
}

/// For each operation the mill, so that work changes mills as rarely as it can along the route.
fn fewest_walks(batch: &Batch, route: &[usize]) -> Vec<usize> {
    let mills = batch.mills.len();
    let far = u32::MAX / 2;
    // For each step of the route and each mill: walks so far, and the mill before.
    let mut steps: Vec<Vec<(u32, usize)>> = Vec::new();
    for o in route {
        let step = (0..mills)
            .map(|mill| {
                if !batch.operations[*o].mills.contains(&mill) {
                    return (far, mill);
                }
                match steps.last() {
                    None => (u32::from(batch.blanks_at.is_some_and(|at| at != mill)), mill),
                    Some(before) => (0..mills)
                        .map(|from| (before[from].0 + u32::from(from != mill), from))
                        .min_by_key(|(walks, from)| (*walks, *from != mill))
                        .unwrap_or((far, mill)),
                }
            })
            .collect();
        steps.push(step);
    }
    let mut on = vec![0; batch.operations.len()];
    let last = steps.last().and_then(|step| (0..mills).min_by_key(|mill| step[*mill].0));
    let mut mill = last.unwrap_or_default();
    for (step, o) in steps.iter().zip(route).rev() {
        on[*o] = mill;
        mill = step[mill].1;
    }
    on
}

/// Stands for operations on their mills: where a table has not room for all, those that take
/// longest to set up keep theirs, and the others share the last.
pub(super) fn stands(batch: &Batch, on: &[usize], operations: &[usize]) -> Vec<Stand> {
    let mut stands: Vec<Stand> = on.iter().map(|mill| Stand { mill: *mill, stand: 0 }).collect();
    for (mill, Mill { stands: room }) in batch.mills.iter().enumerate() {
        let mut here: Vec<usize> =
            operations.iter().copied().filter(|operation| on[*operation] == mill).collect();
        let long = |o: &usize| batch.operations[*o].set_up.to_second();
        here.sort_by(|a, b| long(b).total_cmp(&long(a)));
        for (place, operation) in here.into_iter().enumerate() {
            stands[operation].stand = place.min(room - 1);
        }
    }
    stands
}
