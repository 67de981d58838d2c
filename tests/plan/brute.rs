//! Every order there is of small batches, one after the other, against the search.
//!
//! Nothing of the engine is used here but the batch: times are added up step by step.

use handwheel::engine::{
    plan::{
        Batch, Mill,
        search::{Aim, search},
        timetable::Timetable,
    },
    quantity::Duration,
};

use crate::operation;

/// What an order comes to: total, first piece, set-ups.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Sums(f64, f64, f64);

/// Enumerates the orders of a batch with the way and the stands given.
struct Orders<'a> {
    batch: &'a Batch,
    route: &'a [usize],
    /// Mill and stand of each operation.
    on: &'a [(usize, usize)],
    guarded: bool,
    best: [Sums; 3],
    looked_at: u64,
}

#[derive(Clone)]
struct State {
    /// Pieces done, by place on the route.
    done: Vec<u32>,
    standing: Vec<(usize, usize)>,
    last: Option<usize>,
    sums: Sums,
    /// Pieces that have met what can spoil them.
    begun: u32,
    finished: bool,
}

impl Orders<'_> {
    fn go_on(&mut self, state: &State) {
        let pieces = self.batch.pieces;
        if state.done.iter().all(|done| *done == pieces) {
            self.looked_at += 1;
            let Sums(total, first, set_ups) = state.sums;
            for (best, key) in self.best.iter_mut().zip([
                (total, first, set_ups),
                (first, total, set_ups),
                (set_ups, total, first),
            ]) {
                let less = |a: f64, b: f64| a < b - 1e-6;
                let (Sums(a, b, c), (x, y, z)) = (*best, key);
                if less(x, a) || !less(a, x) && (less(y, b) || !less(b, y) && less(z, c)) {
                    *best = Sums(x, y, z);
                }
            }
            return;
        }
        for step in 0..self.route.len() {
            let is_ready =
                state.done[step] < pieces && (step == 0 || state.done[step - 1] > state.done[step]);
            if is_ready {
                self.take(state, step);
            }
        }
    }

    fn take(&mut self, state: &State, step: usize) {
        let o = self.route[step];
        let operation = &self.batch.operations[o];
        let mut next = state.clone();
        let here = self.on[o];
        if operation.can_spoil() && state.done[step] + 1 > state.begun {
            next.begun = state.done[step] + 1;
            if self.guarded && !state.finished && next.begun > 1 {
                return;
            }
        }
        if state.last != Some(step) {
            let from = step.checked_sub(1).map(|before| self.on[self.route[before]].0);
            if from.is_some_and(|from| from != here.0) {
                next.sums.0 += self.batch.walk.to_second();
            }
        }
        let place = state.standing.iter().position(|(at, _)| *at == encode(here));
        if place.is_none_or(|place| state.standing[place].1 != o) {
            next.standing.retain(|(at, _)| *at != encode(here));
            next.standing.push((encode(here), o));
            next.sums.0 += operation.set_up.to_second();
            next.sums.2 += 1.0;
        }
        next.sums.0 += operation.each().to_second();
        next.done[step] += 1;
        next.last = Some(step);
        if !next.finished && step + 1 == self.route.len() {
            next.finished = true;
            next.sums.1 = next.sums.0;
            next.sums.0 += self.batch.check_time().to_second();
        }
        self.go_on(&next);
    }
}

fn encode((mill, stand): (usize, usize)) -> usize {
    mill * 16 + stand
}

/// Every way through the operations that respects what comes after what.
fn routes(batch: &Batch) -> Vec<Vec<usize>> {
    fn grow(batch: &Batch, route: &mut Vec<usize>, all: &mut Vec<Vec<usize>>) {
        if route.len() == batch.operations.len() {
            all.push(route.clone());
        }
        for (o, operation) in batch.operations.iter().enumerate() {
            if !route.contains(&o) && operation.after.iter().all(|b| route.contains(b)) {
                route.push(o);
                grow(batch, route, all);
                route.pop();
            }
        }
    }
    let mut all = Vec::new();
    grow(batch, &mut Vec::new(), &mut all);
    all
}

/// Every choice of a mill and a stand for each operation.
fn choices(batch: &Batch) -> Vec<Vec<(usize, usize)>> {
    let mut all = vec![Vec::new()];
    for operation in &batch.operations {
        all = all
            .into_iter()
            .flat_map(|chosen: Vec<(usize, usize)>| {
                operation.mills.iter().flat_map(move |mill| {
                    let chosen = chosen.clone();
                    (0..batch.mills[*mill].stands).map(move |stand| {
                        let mut chosen = chosen.clone();
                        chosen.push((*mill, stand));
                        chosen
                    })
                })
            })
            .collect();
    }
    all
}

/// The least of all orders for each aim, as (aimed at, next, last), and how many there are.
fn best_of_all(batch: &Batch, guarded: bool) -> ([Sums; 3], u64) {
    let never = Sums(f64::INFINITY, f64::INFINITY, f64::INFINITY);
    let (mut best, mut looked_at) = ([never; 3], 0);
    for route in routes(batch) {
        for on in choices(batch) {
            let mut orders = Orders { batch, route: &route, on: &on, guarded, best, looked_at: 0 };
            orders.go_on(&State {
                done: vec![0; route.len()],
                standing: Vec::new(),
                last: None,
                sums: Sums(0.0, 0.0, 0.0),
                begun: 0,
                finished: false,
            });
            best = orders.best;
            looked_at += orders.looked_at;
        }
    }
    (best, looked_at)
}

/// The search against every order; gives how many there are.
fn agree(batch: &Batch) -> u64 {
    batch.check().expect("a batch");
    let mut looked_at = 0;
    for guarded in [false, true] {
        let (all, count) = best_of_all(batch, guarded || batch.check_first);
        looked_at += count;
        for (aim, wanted) in [Aim::Total, Aim::First, Aim::SetUps].into_iter().zip(all) {
            let found = search(batch, aim, guarded);
            assert!(found.exact);
            let figures = Timetable::of(batch, &found.order).figures;
            let (total, first) = (figures.total.to_second(), figures.first.to_second());
            let set_ups = f64::from(figures.set_ups);
            let got = match aim {
                Aim::Total => Sums(total, first, set_ups),
                Aim::First => Sums(first, total, set_ups),
                Aim::SetUps => Sums(set_ups, total, first),
            };
            let near = |a: f64, b: f64| (a - b).abs() < 1e-3;
            assert!(
                near(got.0, wanted.0) && near(got.1, wanted.1),
                "{aim:?} guarded {guarded}: {got:?}, of all {wanted:?}, {batch:#?}"
            );
        }
    }
    looked_at
}

/// Some number between two, the same on every run.
struct Dice(u64);

impl Dice {
    fn between(&mut self, low: u64, high: u64) -> u64 {
        self.0 =
            self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        low + (self.0 >> 33) % (high - low + 1)
    }
}

fn some_batch(dice: &mut Dice, pieces: u32, operations: usize, mills: usize, chain: bool) -> Batch {
    let mut batch = Batch {
        pieces,
        operations: Vec::new(),
        mills: (0..mills).map(|_| Mill { stands: dice.between(1, 2) as usize }).collect(),
        walk: Duration::second(dice.between(0, 60) as f64),
        check: Duration::minute(dice.between(0, 4) as f64),
        check_first: dice.between(0, 1) == 0,
        blanks_at: None,
    };
    for place in 0..operations {
        let mut mills: Vec<usize> = (0..mills).filter(|_| dice.between(0, 2) > 0).collect();
        if mills.is_empty() {
            mills.push(0);
        }
        let set_up = dice.between(1, 20) as f64;
        let mut made = operation(place, &mills, set_up, dice.between(20, 300) as f64);
        made.load = Duration::second(dice.between(0, 40) as f64);
        if !chain {
            made.after = (0..place).filter(|_| dice.between(0, 2) == 0).collect();
        }
        made.risk = [None, Some(0.0), Some(0.05)][dice.between(0, 2) as usize];
        batch.operations.push(made);
    }
    batch
}

#[test]
fn the_search_finds_the_best_of_all_orders_of_a_chain() {
    let mut dice = Dice(7);
    let mut looked_at = 0;
    for round in 0..60 {
        let pieces = 1 + round % 3;
        let operations = 1 + (round as usize / 3) % 3;
        looked_at += agree(&some_batch(&mut dice, pieces, operations, 2, true));
    }
    println!("{looked_at} orders");
}

#[test]
fn the_search_finds_the_best_of_all_orders_of_operations_in_any_order() {
    let mut dice = Dice(11);
    for round in 0..40 {
        let pieces = 1 + round % 3;
        looked(agree(&some_batch(&mut dice, pieces, 2 + round as usize % 2, 2, false)));
    }
    looked(agree(&some_batch(&mut dice, 2, 4, 2, false)));
}

#[test]
fn the_search_finds_the_best_of_all_orders_of_four_pieces_by_four_operations() {
    // 24024 orders of the pieces for every choice of mills.
    for (seed, mills) in [(1, [0, 1, 0, 1]), (2, [0, 0, 1, 1]), (3, [0, 0, 0, 0])] {
        let mut dice = Dice(seed);
        let mut batch = some_batch(&mut dice, 4, 4, 2, true);
        batch.mills = vec![Mill { stands: 1 }; 2];
        for (operation, mill) in batch.operations.iter_mut().zip(mills) {
            operation.mills = vec![mill];
        }
        batch.check_first = false;
        batch.operations[1].mills = vec![0, 1];
        assert!(agree(&batch) >= 24_024);
    }
}

fn looked(at: u64) {
    assert!(at > 0);
}
