//! Places and set-ups: what a scenario states, and properties that no pattern may break.

use handwheel::engine::{
    layout::{
        LayoutError, Place,
        arc::{Side, SteppedArc},
        circle::{BoltCircle, Direction},
    },
    quantity::{Angle, Force, Length},
    setup::{
        SetupError, parallels, strap,
        touch::{self, Touch},
        tram::Tram,
    },
};
use proptest::prelude::*;

fn inch(value: f64) -> Length {
    Length::inch(value)
}

fn circle(
    holes: u32,
    mm: f64,
    start: f64,
    direction: Direction,
) -> Result<BoltCircle, LayoutError> {
    BoltCircle::new(holes, Length::mm(mm), Place::ORIGIN, Angle::degree(start), direction)
}

#[test]
fn six_holes_on_60_mm_stand_where_the_readout_wants_them() {
    let centre = Place { x: inch(2.5), y: inch(2.5) };
    let circle = BoltCircle::new(
        6,
        Length::mm(60.0),
        centre,
        Angle::degree(0.0),
        Direction::CounterClockwise,
    )
    .unwrap();
    let wanted = [
        (3.6811, 2.5),
        (3.0906, 3.5229),
        (1.9094, 3.5229),
        (1.3189, 2.5),
        (1.9094, 1.4771),
        (3.0906, 1.4771),
    ];
    for (place, (x, y)) in circle.places().iter().zip(wanted) {
        assert!((place.x.to_inch() - x).abs() < 5e-5, "{place:?}");
        assert!((place.y.to_inch() - y).abs() < 5e-5, "{place:?}");
    }
    assert!((circle.chord().to_mm() - 30.0).abs() < 1e-9);
}

#[test]
fn a_quarter_of_a_turn_lands_on_the_axis_exactly() {
    let four = circle(4, 100.0, 0.0, Direction::Clockwise).unwrap();
    assert_eq!(four.hole(2).unwrap(), Place { x: Length::ZERO, y: Length::mm(-50.0) });
    assert_eq!(four.hole(5), Err(LayoutError::NoSuchHole(5)));
}

#[test]
fn a_pattern_that_is_none_is_named() {
    assert_eq!(circle(0, 60.0, 0.0, Direction::default()), Err(LayoutError::NoHoles));
    assert_eq!(circle(1_000_000, 60.0, 0.0, Direction::default()), Err(LayoutError::TooManyHoles));
    for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        let error = circle(6, bad, 0.0, Direction::default()).unwrap_err();
        assert_eq!(error, LayoutError::NotPositive("diameter of the circle"), "{bad}");
    }
    assert!(circle(6, 60.0, f64::NAN, Direction::default()).is_err());
    let corner = SteppedArc::new(inch(0.1), inch(0.5), Side::Inside, Place::ORIGIN);
    assert_eq!(corner, Err(LayoutError::CutterTooLarge));
}

#[test]
fn the_one_inch_parallel_holds_most() {
    let jaws = parallels::range(inch(1.375), inch(0.75), inch(0.25), inch(0.06), inch(0.25));
    let jaws = jaws.unwrap();
    assert!((jaws.lowest.to_inch() - 0.935).abs() < 1e-9);
    assert!((jaws.highest.to_inch() - 1.125).abs() < 1e-9);
    let owned: Vec<Length> = (4..=13).map(|eighth| inch(f64::from(eighth) / 8.0)).collect();
    assert!((jaws.choice(&owned).unwrap().to_inch() - 1.0).abs() < 1e-12);
    assert_eq!(jaws.choice(&[inch(0.5)]), None);
    let none = parallels::range(inch(1.375), inch(0.375), inch(0.25), inch(0.06), inch(0.25));
    assert_eq!(none, Err(SetupError::NoParallel));
}

#[test]
fn a_tip_over_a_part_is_smaller_than_the_travel() {
    let wrong = touch::between(inch(0.1), inch(0.2), Touch::Outside);
    assert_eq!(wrong, Err(SetupError::TipOverTravel));
    assert!(
        (touch::between(inch(1.3), inch(0.2), Touch::Inside).unwrap().size - inch(1.5)).abs()
            < inch(1e-9)
    );
}

#[test]
fn a_head_that_leans_wants_both_readings_at_their_mean() {
    let tram = Tram::new(inch(0.0), inch(0.0045), inch(8.0)).unwrap();
    assert!((tram.target().to_inch() - 0.002_25).abs() < 1e-12);
    assert!(Tram::new(inch(0.0), inch(9.0), inch(8.0)).is_err());
    assert!(tram.hollow(inch(1.0), inch(1.5)).is_err());
}

proptest! {
    #[test]
    fn every_hole_is_a_chord_from_the_next(
        holes in 2_u32..200,
        mm in 1.0..500.0_f64,
        start in -720.0..720.0_f64,
        clockwise: bool,
    ) {
        let way = if clockwise { Direction::Clockwise } else { Direction::CounterClockwise };
        let circle = circle(holes, mm, start, way).unwrap();
        let places = circle.places();
        for (one, next) in places.iter().zip(places.iter().cycle().skip(1)) {
            let off = (one.distance(*next) - circle.chord()).abs();
            prop_assert!(off.to_mm() < 1e-9 * mm);
        }
        for place in &places {
            prop_assert!((place.distance(Place::ORIGIN).to_mm() - mm / 2.0).abs() < 1e-9 * mm);
        }
    }

    #[test]
    fn the_other_way_round_mirrors(holes in 1_u32..60, mm in 1.0..500.0_f64, hole in 1_u32..60) {
        prop_assume!(hole <= holes);
        let place = |way| circle(holes, mm, 0.0, way).unwrap().hole(hole).unwrap();
        let (one, other) = (place(Direction::Clockwise), place(Direction::CounterClockwise));
        prop_assert!((one.x - other.x).abs().to_mm() < 1e-9 * mm);
        prop_assert!((one.y + other.y).abs().to_mm() < 1e-9 * mm);
    }

    #[test]
    fn the_parallel_chosen_satisfies_both_bounds(
        jaw in 0.5..3.0_f64,
        part in 0.25..3.0_f64,
        cut in 0.0..1.0_f64,
        owned in prop::collection::vec(0.1..3.0_f64, 1..20),
    ) {
        let Ok(range) = parallels::range(inch(jaw), inch(part), inch(cut), inch(0.06), inch(0.25))
        else { return Ok(()) };
        let owned: Vec<Length> = owned.into_iter().map(inch).collect();
        if let Some(height) = range.choice(&owned) {
            // The cut ends above the jaws, and the jaws hold a quarter of an inch.
            prop_assert!((height + inch(part - cut)).to_inch() >= jaw + 0.06 - 1e-9);
            prop_assert!(jaw - height.to_inch() >= 0.25 - 1e-9);
        }
    }

    #[test]
    fn a_strap_never_gives_the_work_more_than_the_bolt_pulls(
        pull in 1.0..50_000.0_f64,
        a in 0.1..10.0_f64,
        b in 0.1..10.0_f64,
    ) {
        let work = strap::at_work(Force::newton(pull), inch(a), inch(b)).unwrap();
        prop_assert!(work.to_newton() < pull);
        let heel = strap::at_work(Force::newton(pull), inch(b), inch(a)).unwrap();
        prop_assert!((work.to_newton() + heel.to_newton() - pull).abs() < 1e-9 * pull);
    }
}
