//! Hole layouts and set-ups as they are asked for: their links, what cannot be, and what is done.

use handwheel::{
    engine::{
        layout::Place,
        quantity::Length,
        question::{Field, InputError},
    },
    shop::{
        document::Document,
        layout::{LayoutForm, Shape},
        restore,
        setup::{Helper, Outcome, SetupForm, finder_speed},
        typed::Typed,
        word::Word,
    },
};
use proptest::prelude::*;

fn form(query: &str) -> LayoutForm {
    let (form, faults) = LayoutForm::from_query(query);
    assert_eq!(faults, Vec::new(), "{query}");
    form
}

fn fault(query: &str) -> InputError {
    let faults = form(query).read().expect_err(query);
    assert_eq!(faults.len(), 1, "{query}: {faults:?}");
    faults.into_iter().next().unwrap()
}

fn inches(place: Place) -> (f64, f64) {
    (place.x.to_inch(), place.y.to_inch())
}

#[track_caller]
fn near(place: Place, wanted: (f64, f64)) {
    let (x, y) = inches(place);
    assert!((x - wanted.0).abs() < 6e-5 && (y - wanted.1).abs() < 6e-5, "{x} {y}: {wanted:?}");
}

#[test]
fn six_holes_of_a_mount_from_its_corner_and_from_its_centre() {
    let corner = form("n=6&d_mm=60&x_in=2.5&y_in=2.5&part_x_in=5&part_y_in=5&hole_mm=4");
    let laid = corner.read().unwrap();
    near(laid.places[1], (3.0906, 3.5229));
    assert!((laid.chord.unwrap().to_mm() - 30.0).abs() < 1e-9);
    assert_eq!((laid.outside.len(), laid.meeting.len()), (0, 0));
    let centre = form("n=6&d_mm=60&x_in=2.5&y_in=2.5&datum_x_in=2.5&datum_y_in=2.5");
    let laid = centre.read().unwrap();
    near(laid.places[0], (1.1811, 0.0));
    near(laid.places[1], (0.5906, 1.0229));
    assert!(laid.worst_error(Length::inch(0.0005)).unwrap().to_inch() <= 0.00025 * 2_f64.sqrt());
}

#[test]
fn four_holes_on_a_quarter_of_a_circle_have_three_gaps() {
    let by_span = form("shape=arc&n=4&d_mm=50&start=90&step=90&by_span=yes&way=cw");
    let by_step = form("shape=arc&n=4&d_mm=50&start=90&step=30&way=cw");
    let (by_span, by_step) = (by_span.read().unwrap(), by_step.read().unwrap());
    for (one, other) in by_span.places.iter().zip(&by_step.places) {
        assert!(one.distance(*other).to_mm() < 1e-9);
    }
    assert!((by_step.places[1].x.to_mm() - 12.5).abs() < 1e-9);
    assert!((by_step.chord.unwrap().to_mm() - 12.941).abs() < 5e-4);
}

#[test]
fn a_boss_is_rounded_in_steps_that_end_where_its_arc_does() {
    let steps = form("shape=steps&radius_in=0.5&cutter_in=0.25&span=90&step=5");
    let laid = steps.read().unwrap();
    assert_eq!(laid.places.len(), 19);
    near(laid.places[0], (0.625, 0.0));
    near(laid.places[6], (0.5413, 0.3125));
    near(laid.places[18], (0.0, 0.625));
    assert!((laid.flat.unwrap().to_inch() - 0.000_595).abs() < 5e-6);
    let inside = "shape=steps&radius_in=0.1&cutter_in=0.25&span=90&step=5&inside=yes";
    assert_eq!(fault(inside).field, Field::Diameter);
}

#[test]
fn what_cannot_be_laid_out_is_said_at_its_field() {
    for (query, field, words) in [
        ("n=0&d_mm=60", Field::Holes, "more than 0"),
        ("n=1000000&d_mm=60", Field::Holes, "more than this can be"),
        ("n=6&d_mm=0", Field::Circle, "more than 0"),
        ("n=6&d_mm=NaN", Field::Circle, ""),
        ("n=6", Field::Circle, ""),
        ("shape=row&n=3", Field::StepX, "same place"),
        ("shape=grid&n=3&rows=2&step_x_in=1", Field::StepY, "same place"),
        ("shape=grid&n=900&rows=900&step_x_in=1&step_y_in=1", Field::Holes, "more holes"),
        ("shape=rectangle&n=1&rows=2&size_x_in=1&size_y_in=1", Field::Holes, "corner"),
        ("shape=list", Field::PlaceX, "at least one hole"),
        ("shape=list&px_in=1&py_in=-", Field::PlaceY, "Hole 1"),
        ("shape=arc&n=5&d_mm=60&step=90", Field::StepAngle, "comes to the first"),
        ("n=6&d_mm=60&along_in=1&off_in=3", Field::SkewAlong, "45°"),
        ("n=6&d_in=20&table_x_in=8&table_y_in=40", Field::TableX, "further apart"),
        ("shape=steps&radius_in=1&cutter_in=1&span=90&step=0.0001", Field::StepAngle, "steps"),
    ] {
        let fault = fault(query);
        assert_eq!(fault.field, field, "{query}: {fault}");
        assert!(fault.to_string().contains(words), "{query}: {fault}");
        assert!(!fault.hint.is_empty(), "{query}: {fault}");
    }
}

#[test]
fn holes_outside_the_part_and_holes_that_meet_are_named() {
    let outside = form("n=4&d_in=4&x_in=2&y_in=2&part_x_in=4&part_y_in=4&hole_in=1/4");
    assert_eq!(outside.read().unwrap().outside, [0, 1, 2, 3]);
    let meeting = form("shape=row&n=3&step_x_mm=4&hole_mm=5");
    assert_eq!(meeting.read().unwrap().meeting, [0, 1, 2]);
    let clear = form("shape=row&n=3&step_x_mm=5&hole_mm=5");
    assert_eq!(clear.read().unwrap().meeting, [0_usize; 0]);
}

#[test]
fn a_mirrored_and_a_copied_pattern_stand_where_they_should() {
    let mirrored = form("shape=list&px_in=1&py_in=0.5&mirror=left_right").read().unwrap();
    near(mirrored.places[0], (-1.0, 0.5));
    let copied = form("shape=row&n=2&x_in=1&step_x_in=1&copies=4").read().unwrap();
    assert_eq!(copied.places.len(), 8);
    let askew = form("shape=list&px_in=5&py_in=0&along_in=5&off_in=0.010").read().unwrap();
    near(askew.places[0], (4.99999, 0.01));
}

#[test]
fn what_is_done_survives_a_restart_and_belongs_to_its_pattern() {
    let mut document = Document::default();
    let form = form("n=6&d_mm=60&thread=M4x0.7&at=3");
    let link = form.to_query();
    document.layouts.mark(&form.pattern(), &link, 2, true);
    document.layouts.mark(&form.pattern(), &link, 0, true);
    let again = restore::restore(&document.to_text()).unwrap();
    assert_eq!(again.layouts, document.layouts);
    assert_eq!(again.layouts.done(&form.pattern()), [2, 0]);
    let other = LayoutForm { centre_hole: true, ..form.clone() };
    assert_eq!(document.layouts.done(&other.pattern()), [0_u32; 0]);
    document.layouts.mark(&form.pattern(), &link, 2, false);
    assert_eq!(document.layouts.done(&form.pattern()), [0]);
    document.layouts.forget(&form.pattern());
    assert!(document.layouts.under_way.is_empty());
}

fn setup(query: &str) -> Outcome {
    SetupForm::from_query(query).0.read().unwrap_or_else(|faults| panic!("{query}: {faults:?}"))
}

#[test]
fn a_finder_of_two_tenths_gives_the_values_to_type() {
    let Outcome::Face { value, .. } = setup("at=face&tip_in=0.200") else { panic!() };
    assert!((value.to_inch() + 0.1).abs() < 1e-9);
    let out = setup("at=middle&tip_in=0.200&travel_in=3.2480");
    let Outcome::Middle { between, zero, .. } = out else { panic!() };
    assert!((between.size.to_inch() - 3.048).abs() < 1e-9);
    assert!((zero.to_inch() - 1.624).abs() < 1e-9);
    let bore = setup("at=middle&tip_in=0.200&travel_in=-1.3&inside=yes");
    let Outcome::Middle { between, zero, .. } = bore else { panic!() };
    assert!((between.size.to_inch() - 1.5).abs() < 1e-9);
    assert!((zero.to_inch() + 0.65).abs() < 1e-9);
    let shop = handwheel::shop::sample::sample();
    let speed = |id: &str| {
        let machine = shop.machine_called(id).unwrap().form.read().unwrap();
        finder_speed(&machine).unwrap().to_rpm()
    };
    assert!((speed("knee_mill") - 930.0).abs() < 1e-6);
    assert!(speed("bench_mill") <= 1000.0 + 1e-6);
}

#[test]
fn a_set_up_that_cannot_be_is_said_at_its_field() {
    for (query, field) in [
        ("at=face", Field::FinderTip),
        ("at=face&tip_in=0", Field::FinderTip),
        ("at=middle&tip_in=0.2&travel_in=0.1", Field::Travel),
        ("at=middle&tip_in=0.2&travel_in=0", Field::Travel),
        ("at=parallels&jaw_in=1.375&part_in=0.375&cut_in=0.25", Field::SideCut),
        ("at=parallels&jaw_in=1.375&part_in=0.75&cut_in=0.25&set_in=abc", Field::Pieces),
        (
            "at=parallels&jaw_in=1.375&part_in=0.75&cut_in=0.25&between_in=2&hole_in=0.25&hole_at_in=0.1",
            Field::HoleCentre,
        ),
        ("at=strap&torque_lbf_in=240&bolt_in=1/2&to_work_in=0&to_heel_in=2", Field::ToWork),
        ("at=head&l_in=0&r_in=9&sweep_in=8", Field::RightReading),
        ("at=head&l_in=0&r_in=0.0045&sweep_in=8&d_in=1&width_in=1.5", Field::Width),
        ("at=wall&d_in=3/8&corner_in=1/8", Field::CornerRadius),
        ("at=slot&d_in=3/8&slot_in=1/4", Field::Diameter),
        ("at=slot&d_in=3/8&slot_in=0.5&left_in=0.1", Field::Allowance),
        ("at=wall&d_in=3/8&depth_in=0.1&pass_in=0.05&finish_in=0.2", Field::FinishPass),
        ("at=sine&bar_in=5&angle=80", Field::SineAngle),
    ] {
        let (form, faults) = SetupForm::from_query(query);
        assert_eq!(faults, Vec::new(), "{query}");
        let faults = form.read().expect_err(query);
        assert_eq!(faults[0].field, field, "{query}: {faults:?}");
        assert!(!faults[0].hint.is_empty(), "{query}: {faults:?}");
    }
}

#[test]
fn the_last_figures_of_a_helper_are_kept() {
    let mut document = Document::default();
    let (form, _) = SetupForm::from_query("at=parallels&jaw_in=1.375&part_in=0.75&cut_in=0.25");
    document.setups.remember(&form);
    let (wall, _) = SetupForm::from_query("at=wall&d_in=3/8&side=right");
    document.setups.remember(&wall);
    document.setups.remember(&form);
    let again = restore::restore(&document.to_text()).unwrap();
    assert_eq!(again.setups.last(Helper::Parallels), Some(form));
    assert_eq!(again.setups.last(Helper::Wall), Some(wall));
    assert_eq!(again.setups.last(Helper::Strap), None);
}

proptest! {
    #[test]
    fn a_link_says_the_whole_layout(
        shape in prop::sample::select(Shape::ALL),
        count in 1_u32..9,
        size in 1_u32..90,
        yes: [bool; 5],
        at in prop::option::of(1_u32..9),
    ) {
        let mut form = LayoutForm {
            shape,
            by_span: yes[0],
            centre_hole: yes[1],
            inside: yes[2],
            short: yes[3],
            one_side: yes[4],
            thread: "M4x0.7".to_owned(),
            at,
            ..LayoutForm::default()
        };
        for field in shape.fields() {
            form.entries.set(*field, Typed::mm(size.to_string()));
        }
        if shape.is_listed() {
            for n in 0..count {
                form.places.push((Typed::inch(n.to_string()), Typed::mm("1")));
            }
            form.places.push((Typed::default(), Typed::inch("2")));
        }
        let (again, faults) = LayoutForm::from_query(&form.to_query());
        prop_assert_eq!(faults, Vec::new());
        // An angle has one unit, whatever the system.
        prop_assert_eq!(again.to_query(), form.to_query());
        prop_assert_eq!(again.read().is_ok(), form.read().is_ok());
    }
}
