//! The best order.
//!
//! Which order is best rests on three choices: the way that the pieces go through the operations,
//! the mill of each operation, and how many operations at the beginning of the way are done on the
//! whole batch before a piece is finished. After those the first piece goes right through, and then
//! every other operation takes the rest in one lot. No order does better: to part a lot adds a
//! set-up or a walk and finishes no piece sooner, and to do some but not all of the batch before
//! the first piece is finished saves nothing (`tests/plan` enumerates all orders of small batches).
//!
//! For the mills of the operations given, the way and the beginning come out of a shortest path
//! over the sets of operations that can be done. That is exact. Where there are too many ways to
//! spread the operations over the mills, they are changed one at a time as long as that gains
//! anything, and a bound says what no order can go below.

use super::{
    Batch,
    order::{Order, Run, stands},
};
use crate::engine::quantity::Duration;

/// What an order is to have least of, before all else; then its total counts, then its first piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Aim {
    /// Time in all.
    Total,
    /// Time to the first piece.
    First,
    /// Set-ups.
    SetUps,
}

/// What the search found.
#[derive(Clone, Debug, PartialEq)]
pub struct Found {
    /// The order.
    pub order: Order,
    /// Every order was looked at.
    pub exact: bool,
    /// No order takes less than this in all.
    pub bound: Duration,
}

/// Steps of the path that are looked at, at the most, for an exact answer.
const MOST_STEPS: usize = 3_000_000;
/// Sets of operations for which the way is searched; beyond, it is the one they are named in.
const MOST_SETS: usize = 600;

/// Less than this is no difference, in seconds.
const SLACK: f64 = 1e-6;

/// What an order costs: what is aimed at, then the others.
type Cost = [f64; 3];

const NEVER: Cost = [f64::INFINITY; 3];

fn add(a: Cost, b: Cost) -> Cost {
    [a[0] + b[0], a[1] + b[1], a[2] + b[2]]
}

fn is_less(a: Cost, b: Cost) -> bool {
    for (a, b) in a.into_iter().zip(b) {
        if a < b - SLACK {
            return true;
        }
        if a > b + SLACK {
            return false;
        }
    }
    false
}

/// The best order of a batch that has been checked; a guarded one lets nothing that can spoil a
/// piece meet a second one before the first is checked, as the batch's own rule does.
#[must_use]
pub fn search(batch: &Batch, aim: Aim, guarded: bool) -> Found {
    let mut search = Search::new(batch, aim, guarded);
    let spreads: f64 = batch.operations.iter().map(|op| op.mills.len() as f64).product();
    let work =
        spreads * (search.sets.len() * batch.mills.len() * batch.operations.len() * 2) as f64;
    let exact = work <= MOST_STEPS as f64 && search.every_set;
    let on = if exact { search.every_spread() } else { search.climb() };
    let order = search.order(&on);
    let one_mill =
        (0..batch.mills.len()).any(|m| batch.operations.iter().all(|op| op.mills.contains(&m)));
    let bound = if exact {
        super::timetable::Timetable::of(batch, &order).figures.total
    } else if one_mill {
        batch.least()
    } else {
        batch.least() + batch.walk
    };
    Found { order, exact, bound }
}

/// A place on the path: which set of operations is done (by its number), at which mill the work
/// is, and whether the first piece is on its own by now.
#[derive(Clone, Copy, PartialEq)]
struct Came {
    from: (usize, usize, bool),
    operation: usize,
}

struct Search<'a> {
    batch: &'a Batch,
    aim: Aim,
    guarded: bool,
    /// Sets of operations that can be done, smallest first: the operations as bits, and for each
    /// operation that can come next the number of the set with it.
    sets: Vec<(u32, Vec<(usize, usize)>)>,
    every_set: bool,
    /// Walks of the second lot.
    again: f64,
    cost: Vec<Cost>,
    came: Vec<Option<Came>>,
}

impl<'a> Search<'a> {
    fn new(batch: &'a Batch, aim: Aim, guarded: bool) -> Self {
        let (sets, every_set) = sets(batch);
        let room = sets.len() * (batch.mills.len() + 1) * 2;
        let again = if batch.pieces > 1 { 1.0 } else { 0.0 };
        let guarded = guarded || batch.check_first;
        let (cost, came) = (vec![NEVER; room], vec![None; room]);
        Self { batch, aim, guarded, sets, every_set, again, cost, came }
    }

    fn price(&self, total: f64, first: f64, set_ups: f64) -> Cost {
        match self.aim {
            Aim::Total => [total, first, set_ups],
            Aim::First => [first, total, set_ups],
            Aim::SetUps => [set_ups, total, first],
        }
    }

    /// The mill where nothing has begun yet.
    fn nowhere(&self) -> usize {
        self.batch.mills.len()
    }

    fn place(&self, set: usize, mill: usize, alone: bool) -> usize {
        (set * (self.batch.mills.len() + 1) + mill) * 2 + usize::from(alone)
    }

    /// What it costs to set up again, for the rest of the batch, the operations that are not in a
    /// set: those that have to share a stand.
    fn setting_up_again(&self, on: &[usize], done: u32) -> Cost {
        let (mut time, mut count) = (0.0, 0.0);
        if self.again == 0.0 {
            return [0.0; 3];
        }
        for (mill, room) in self.batch.mills.iter().enumerate() {
            let mut here: [f64; super::MOST_OPERATIONS] = [0.0; super::MOST_OPERATIONS];
            let mut many = 0;
            for (o, operation) in self.batch.operations.iter().enumerate() {
                if on[o] == mill && done & (1 << o) == 0 {
                    here[many] = operation.set_up.to_second();
                    many += 1;
                }
            }
            if many > room.stands {
                let here = &mut here[..many];
                here.sort_by(f64::total_cmp);
                let shared = many - (room.stands - 1);
                time += here[..shared].iter().sum::<f64>();
                count += shared as f64;
            }
        }
        self.price(time, 0.0, count)
    }

    /// The least cost with the operations on these mills. The path to it stays in `came`.
    fn path(&mut self, on: &[usize]) -> (Cost, Option<(usize, usize, bool)>) {
        let batch = self.batch;
        self.cost.fill(NEVER);
        self.came.fill(None);
        let walk = batch.walk.to_second();
        let pieces = f64::from(batch.pieces);
        let start = self.place(0, batch.blanks_at.unwrap_or(self.nowhere()), false);
        self.cost[start] = [0.0; 3];
        let count = batch.operations.len();
        let mut best = (NEVER, None);
        for set in 0..self.sets.len() {
            let done = self.sets[set].0;
            let left = count - done.count_ones() as usize;
            for mill in 0..=batch.mills.len() {
                let bulk = self.place(set, mill, false);
                let alone = self.place(set, mill, true);
                // From here on the first piece is on its own.
                if left >= 2 && self.cost[bulk][0].is_finite() {
                    let cost = add(self.cost[bulk], self.setting_up_again(on, done));
                    if is_less(cost, self.cost[alone]) {
                        self.cost[alone] = cost;
                        self.came[alone] = self.came[bulk];
                    }
                }
                for is_alone in [false, true] {
                    let here = self.cost[if is_alone { alone } else { bulk }];
                    if !here[0].is_finite() {
                        continue;
                    }
                    if left == 0 {
                        if is_less(here, best.0) {
                            best = (here, Some((set, mill, is_alone)));
                        }
                        continue;
                    }
                    for next in 0..self.sets[set].1.len() {
                        let (o, to) = self.sets[set].1[next];
                        let operation = &batch.operations[o];
                        let last = left == 1;
                        let in_bulk = !is_alone && !last;
                        if in_bulk && self.guarded && operation.can_spoil() && pieces > 1.0 {
                            continue;
                        }
                        let is_carried = mill != self.nowhere() && on[o] != mill;
                        let walks = if is_carried { walk } else { 0.0 };
                        let again = if is_alone { walks * self.again } else { 0.0 };
                        let each = operation.each().to_second();
                        let until_first = if in_bulk { each * pieces } else { each };
                        let step = self.price(walks + again, walks + until_first, 0.0);
                        let cost = add(here, step);
                        let there = self.place(to, on[o], is_alone);
                        if is_less(cost, self.cost[there]) {
                            self.cost[there] = cost;
                            self.came[there] =
                                Some(Came { from: (set, mill, is_alone), operation: o });
                        }
                    }
                }
            }
        }
        best
    }

    /// The best of all ways to spread the operations over the mills.
    fn every_spread(&mut self) -> Vec<usize> {
        let batch = self.batch;
        let mut choice = vec![0; batch.operations.len()];
        let mut best: Option<(Cost, Vec<usize>)> = None;
        loop {
            let on: Vec<usize> =
                choice.iter().zip(&batch.operations).map(|(c, op)| op.mills[*c]).collect();
            let (cost, _) = self.path(&on);
            if best.as_ref().is_none_or(|(least, _)| is_less(cost, *least)) {
                best = Some((cost, on));
            }
            let Some(turn) =
                (0..choice.len()).find(|o| choice[*o] + 1 < batch.operations[*o].mills.len())
            else {
                break;
            };
            choice[turn] += 1;
            choice[..turn].fill(0);
        }
        best.map(|(_, on)| on).unwrap_or_default()
    }

    /// A good way to spread them, where there are too many: from several beginnings, one operation
    /// after the other goes to the mill where it does best, as long as that gains anything.
    fn climb(&mut self) -> Vec<usize> {
        let batch = self.batch;
        let route = batch.route();
        let mut beginnings: Vec<Vec<usize>> = Vec::new();
        let may = |o: usize, mill: usize| {
            let mills = &batch.operations[o].mills;
            if mills.contains(&mill) { mill } else { mills[0] }
        };
        for first in 0..batch.mills.len() {
            for second in 0..batch.mills.len() {
                for share in 1..=route.len() {
                    if first == second && share < route.len() {
                        continue;
                    }
                    let mut on = vec![0; batch.operations.len()];
                    for (place, o) in route.iter().enumerate() {
                        on[*o] = may(*o, if place < share { first } else { second });
                    }
                    beginnings.push(on);
                }
            }
        }
        let mut ranked: Vec<(Cost, Vec<usize>)> =
            beginnings.into_iter().map(|on| (self.path(&on).0, on)).collect();
        ranked.sort_by(|a, b| {
            if is_less(a.0, b.0) { core::cmp::Ordering::Less } else { core::cmp::Ordering::Greater }
        });
        let Some((mut least, mut best)) = ranked.into_iter().next() else { return Vec::new() };
        loop {
            let mut gained = false;
            for o in 0..best.len() {
                for mill in &batch.operations[o].mills {
                    let mut on = best.clone();
                    on[o] = *mill;
                    let (cost, _) = self.path(&on);
                    if is_less(cost, least) {
                        (least, best, gained) = (cost, on, true);
                    }
                }
            }
            if !gained {
                return best;
            }
        }
    }

    /// The order of the least cost with the operations on these mills.
    fn order(&mut self, on: &[usize]) -> Order {
        let batch = self.batch;
        let (_, end) = self.path(on);
        // Backwards along the path; where it leaves the bulk, the first piece is on its own.
        let mut way: Vec<(usize, bool)> = Vec::new();
        let mut at = end;
        while let Some((set, mill, alone)) = at {
            let Some(came) = self.came[self.place(set, mill, alone)] else { break };
            // What leads to where the first piece is parted off was still done on all.
            way.push((came.operation, came.from.2 && alone));
            at = Some(came.from);
        }
        way.reverse();
        let bulk: Vec<usize> =
            way.iter().filter(|(_, alone)| !alone).map(|(operation, _)| *operation).collect();
        let rest: Vec<usize> =
            way.iter().filter(|(_, alone)| *alone).map(|(operation, _)| *operation).collect();
        let run =
            |pieces: (u32, u32)| move |operation: &usize| Run { operation: *operation, pieces };
        let mut runs: Vec<Run> = bulk.iter().map(run((0, batch.pieces))).collect();
        runs.extend(rest.iter().map(run((0, 1))));
        if batch.pieces > 1 {
            runs.extend(rest.iter().map(run((1, batch.pieces))));
        }
        Order { stands: stands(batch, on, &rest), runs, anew: false }
    }
}

/// A set of operations as bits, and for each that can come next the number of the set with it.
type Sets = Vec<(u32, Vec<(usize, usize)>)>;

/// The sets of operations that can be done, each after those it grows from; false with them where
/// there are too many and only the way they are named in is kept.
fn sets(batch: &Batch) -> (Sets, bool) {
    let before: Vec<u32> =
        batch.operations.iter().map(|op| op.after.iter().fold(0, |set, b| set | 1 << b)).collect();
    let mut sets: Sets = vec![(0, Vec::new())];
    let mut place = 0;
    while place < sets.len() && sets.len() <= MOST_SETS {
        let done = sets[place].0;
        for (o, needs) in before.iter().enumerate() {
            if done & (1 << o) != 0 || needs & !done != 0 {
                continue;
            }
            let with = done | 1 << o;
            let to = sets.iter().position(|(set, _)| *set == with).unwrap_or_else(|| {
                sets.push((with, Vec::new()));
                sets.len() - 1
            });
            sets[place].1.push((o, to));
        }
        place += 1;
    }
    if sets.len() <= MOST_SETS {
        return (sets, true);
    }
    let mut named: Sets = vec![(0, Vec::new())];
    for (place, o) in batch.route().into_iter().enumerate() {
        named[place].1.push((o, place + 1));
        let with = named[place].0 | 1 << o;
        named.push((with, Vec::new()));
    }
    (named, false)
}
