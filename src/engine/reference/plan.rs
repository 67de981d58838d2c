//! Topics of planning a batch.

use super::{
    Topic,
    keys::{Keys, Refusal},
    units::got,
};
use crate::engine::{
    plan::{
        Batch, Fault, Mill, Operation,
        order::{Way, operation_by_operation, piece_by_piece, two_mills},
        timetable::Timetable,
    },
    quantity::Duration,
};

pub(super) const TOPICS: &[Topic] = &[("batch_time", |k| {
    let way = k.word(
        "way",
        &[
            ("piece_by_piece", Way::PieceByPiece),
            ("operation_by_operation", Way::OperationByOperation),
            ("two_machines", Way::TwoMills),
        ],
    )?;
    let is_total = k.word("quantity", &[("total", true), ("first_part", false)])?;
    let batch = batch(k)?;
    let order = match way {
        Way::PieceByPiece => piece_by_piece(&batch),
        Way::OperationByOperation => Ok(operation_by_operation(&batch)),
        _ => two_mills(&batch),
    }
    .map_err(|_| Refusal("These operations cannot be made so.".to_owned()))?;
    let figures = Timetable::of(&batch, &order).figures;
    got(if is_total { figures.total } else { figures.first })
})];

/// The batch of a row: two mills with room for every set-up, the blanks at the first.
fn batch(k: &Keys) -> Result<Batch, Refusal> {
    let set_ups = k.list::<Duration>("setups")?;
    let cycles = k.list::<Duration>("cycles")?;
    if set_ups.len() != cycles.len() {
        return Err(Refusal(format!(
            "There are {} set-ups and {} cycles: each operation has one of both.",
            set_ups.len(),
            cycles.len()
        )));
    }
    let operation = |(place, (set_up, cut)): (usize, (Duration, Duration))| Operation {
        name: format!("{}", place + 1),
        mills: vec![0, 1],
        set_up,
        cut,
        load: Duration::ZERO,
        tool_change: Duration::ZERO,
        after: place.checked_sub(1).into_iter().collect(),
        risk: None,
    };
    let stands = set_ups.len();
    let batch = Batch {
        pieces: k.count("pieces")?,
        operations: set_ups.into_iter().zip(cycles).enumerate().map(operation).collect(),
        mills: vec![Mill { stands }; 2],
        walk: k.get_or("walk", Duration::ZERO)?,
        check: Duration::ZERO,
        check_first: false,
        blanks_at: Some(0),
    };
    let first = |faults: Vec<Fault>| {
        faults.first().map_or_else(|| Refusal(String::new()), |f| Refusal(f.to_string()))
    };
    batch.check().map_err(first)?;
    Ok(batch)
}
