//! Places and set-ups: what a scenario states, and properties that no pattern may break.

use handwheel::engine::{
    layout::{
        LayoutError, Place,
        arc::{Side, SteppedArc},
        circle::{BoltCircle, Direction},
        edge,
        moved::{self, Mirror},
        points, readout, rows, travel,
    },
    quantity::{Angle, Force, Length},
    setup::{
        SetupError, parallels,
        passes::PassPlan,
        sine, strap,
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

#[test]
fn half_a_step_of_the_readout_goes_away_from_zero() {
    let step = inch(0.0005);
    for (value, shown) in
        [(3.5229, 3.5230), (2.500_25, 2.5005), (-2.500_25, -2.5005), (0.000_2, 0.0), (0.1, 0.1)]
    {
        let got = readout::nearest(inch(value), step).unwrap().to_inch();
        assert!((got - shown).abs() < 1e-9, "{value}: {got}");
    }
    assert!(readout::nearest(inch(1.0), Length::ZERO).is_err());
}

#[test]
fn rows_grids_and_rectangles_stand_where_they_are_drawn() {
    let at = |x: f64, y: f64| Place { x: inch(x), y: inch(y) };
    let four = rows::line(at(1.0, 0.5), 4, inch(0.25), Length::ZERO).unwrap();
    assert_eq!(four.len(), 4);
    assert!(four[3].distance(at(1.75, 0.5)).to_inch() < 1e-12);
    let grid = rows::grid(at(0.0, 0.0), 3, 2, inch(0.5), inch(1.0)).unwrap();
    assert_eq!(grid.len(), 6);
    assert!(grid[5].distance(at(1.0, 1.0)).to_inch() < 1e-12);
    let frame = rows::rectangle(at(0.25, 0.25), inch(2.0), inch(1.0), 3, 2).unwrap();
    let corners = [at(0.25, 0.25), at(2.25, 0.25), at(2.25, 1.25), at(0.25, 1.25)];
    assert_eq!(frame.len(), 6);
    for corner in corners {
        assert_eq!(frame.iter().filter(|p| p.distance(corner).to_inch() < 1e-12).count(), 1);
    }
    assert_eq!(rows::line(at(0.0, 0.0), 0, inch(1.0), inch(0.0)), Err(LayoutError::NoHoles));
    assert_eq!(rows::line(at(0.0, 0.0), 2, inch(0.0), inch(0.0)), Err(LayoutError::NoStep));
    let many = rows::grid(at(0.0, 0.0), 1000, 1000, inch(1.0), inch(1.0));
    assert_eq!(many, Err(LayoutError::TooManyHoles));
    let thin = rows::rectangle(at(0.0, 0.0), inch(1.0), inch(1.0), 1, 2);
    assert_eq!(thin, Err(LayoutError::TwoCorners));
}

#[test]
fn a_radius_and_an_angle_give_a_place() {
    let at = points::polar(Place::ORIGIN, inch(2.0), Angle::degree(30.0)).unwrap();
    assert!((at.x.to_inch() - 1.732_05).abs() < 1e-5 && (at.y.to_inch() - 1.0).abs() < 1e-9);
    let up = points::polar(Place::ORIGIN, inch(2.0), Angle::degree(90.0)).unwrap();
    assert_eq!(up, Place { x: Length::ZERO, y: inch(2.0) });
    assert!(points::polar(Place::ORIGIN, inch(-1.0), Angle::degree(0.0)).is_err());
    assert!(points::polar(Place::ORIGIN, inch(1.0), Angle::degree(f64::NAN)).is_err());
}

#[test]
fn a_slot_wider_than_its_cutter_is_cut_on_both_sides_of_its_middle() {
    let (low, high) = edge::between(Length::ZERO, inch(0.5), inch(0.375), Length::ZERO).unwrap();
    assert!((low.to_inch() + 0.0625).abs() < 1e-12 && (high.to_inch() - 0.0625).abs() < 1e-12);
    let wide = edge::between(Length::ZERO, inch(0.5), inch(0.625), Length::ZERO);
    assert_eq!(wide, Err(LayoutError::NoRoom));
    assert_eq!(edge::fits_corner(inch(0.5), inch(0.125)), Err(LayoutError::CutterTooLarge));
    assert_eq!(edge::fits_corner(inch(0.25), inch(0.125)), Ok(()));
}

#[test]
fn a_part_askew_turns_the_pattern_with_it() {
    // 0.010 in further back over 5 in to the right: turned counter-clockwise by 0.1146 degrees.
    let angle = moved::askew(inch(5.0), inch(0.010)).unwrap();
    assert!((angle.to_degree() - 0.114_59).abs() < 1e-5);
    let back = moved::askew(inch(-5.0), inch(-0.010)).unwrap();
    assert!((back.to_degree() - angle.to_degree()).abs() < 1e-12);
    let hole = Place { x: inch(5.0), y: Length::ZERO }.turned(Place::ORIGIN, angle);
    assert!((hole.y.to_inch() - 0.010).abs() < 1e-6);
    assert_eq!(moved::askew(inch(1.0), inch(2.0)), Err(LayoutError::TooAskew));
    assert!(moved::askew(Length::ZERO, inch(0.01)).is_err());
}

#[test]
fn a_hole_over_a_parallel_is_seen_at_either_jaw() {
    let under =
        |centre| parallels::under(inch(2.0), inch(0.125), inch(0.25), inch(centre)).unwrap();
    let near = under(0.2);
    assert!((near.from.to_inch() - 0.075).abs() < 1e-12 && near.fixed && !near.moving);
    assert!(under(0.4).is_clear());
    assert!(under(0.25).is_clear());
    assert!(under(1.8).moving);
    let out = parallels::under(inch(2.0), inch(0.125), inch(0.25), inch(0.1));
    assert_eq!(out, Err(SetupError::OutsideThePart));
    assert!((parallels::least_grip(inch(0.75)).to_inch() - 0.25).abs() < 1e-12);
    assert!((parallels::least_grip(inch(0.3)).to_inch() - 0.2).abs() < 1e-12);
    let left = parallels::left_under(inch(1.0), inch(0.14)).unwrap();
    assert!((left.to_inch() - 0.86).abs() < 1e-12);
}

#[test]
fn blocks_under_a_sine_bar_are_its_length_times_the_sine() {
    let height = sine::height(inch(5.0), Angle::degree(30.0)).unwrap();
    assert!((height.to_inch() - 2.5).abs() < 1e-12);
    assert_eq!(sine::height(inch(5.0), Angle::degree(75.0)), Err(SetupError::TooSteep));
    assert!((touch::zero_in_the_middle(inch(3.248)).unwrap().to_inch() - 1.624).abs() < 1e-12);
}

fn places() -> impl Strategy<Value = Vec<Place>> {
    let place = (-500.0..500.0_f64, -500.0..500.0_f64)
        .prop_map(|(x, y)| Place { x: Length::mm(x), y: Length::mm(y) });
    prop::collection::vec(place, 1..200)
}

proptest! {
    #[test]
    fn turning_back_and_mirroring_twice_bring_every_hole_back(
        places in places(),
        degrees in -360.0..360.0_f64,
    ) {
        let centre = places[0];
        for place in &places {
            let turned = place.turned(centre, Angle::degree(degrees));
            let back = turned.turned(centre, Angle::degree(-degrees));
            prop_assert!(back.distance(*place).to_mm() < 1e-9);
            let apart = turned.distance(centre) - place.distance(centre);
            prop_assert!(apart.abs().to_mm() < 1e-9);
            for mirror in [Mirror::LeftRight, Mirror::FrontBack] {
                let twice = place.mirrored(centre, mirror).mirrored(centre, mirror);
                prop_assert!(twice.distance(*place).to_mm() < 1e-9);
            }
        }
    }

    #[test]
    fn copies_all_the_way_round_are_each_others_turns(places in places(), times in 1_u32..5) {
        let all = moved::copies(&places, Place::ORIGIN, times).unwrap();
        prop_assert_eq!(all.len(), places.len() * times as usize);
        let step = Angle::degree(360.0 / f64::from(times));
        for (one, next) in all.iter().zip(all.iter().cycle().skip(places.len())) {
            prop_assert!(one.turned(Place::ORIGIN, step).distance(*next).to_mm() < 1e-9);
        }
    }

    #[test]
    fn another_datum_leaves_every_distance(places in places(), x in -99.0..99.0_f64) {
        let datum = Place { x: Length::mm(x), y: Length::mm(-x) };
        let moved: Vec<Place> = places.iter().map(|place| place.from_datum(datum)).collect();
        for (one, other) in places.iter().zip(&moved) {
            let apart = one.distance(places[0]) - other.distance(moved[0]);
            prop_assert!(apart.abs().to_mm() < 1e-9);
        }
    }

    #[test]
    fn a_readout_is_never_off_by_more_than_half_a_step(
        mm in -1000.0..1000.0_f64,
        um in 0.5..50.0_f64,
    ) {
        let step = Length::um(um);
        let shown = readout::nearest(Length::mm(mm), step).unwrap();
        prop_assert!((shown.to_mm() - mm).abs() <= step.to_mm() / 2.0 + 1e-8 * step.to_mm() + 1e-12);
        let steps = shown / step;
        prop_assert!((steps - steps.round()).abs() < 1e-6);
    }

    #[test]
    fn the_travel_passes_every_hole_once_and_is_no_longer_than_the_list(places in places()) {
        let order = travel::short(Place::ORIGIN, &places);
        let mut seen = order.clone();
        seen.sort_unstable();
        let own: Vec<usize> = (0..places.len()).collect();
        prop_assert_eq!(&seen, &own);
        let short = travel::length(Place::ORIGIN, &places, &order);
        prop_assert!(short.to_mm() <= travel::length(Place::ORIGIN, &places, &own).to_mm() + 1e-6);
    }

    #[test]
    fn a_move_goes_past_only_where_its_numbers_shrink(places in places()) {
        for pair in places.windows(2) {
            let step = travel::step(pair[0], pair[1]);
            prop_assert_eq!(step.past_x, pair[1].x.to_mm() < pair[0].x.to_mm() - 1e-6);
            prop_assert_eq!(step.past_y, pair[1].y.to_mm() < pair[0].y.to_mm() - 1e-6);
        }
    }

    #[test]
    fn the_last_pass_ends_exactly_on_depth(
        total in 0.001..50.0_f64,
        largest in 0.01..10.0_f64,
        share in 0.0..1.0_f64,
    ) {
        let plan = PassPlan::new(Length::mm(total), Length::mm(largest), Length::mm(total * share));
        let targets: Vec<Length> = plan.unwrap().targets().collect();
        prop_assert_eq!(*targets.last().unwrap(), Length::mm(total));
        prop_assert!(targets.windows(2).all(|pair| pair[0] < pair[1]));
    }

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
