//! Every state of the screens that an address leads to.

use crate::page::Page;

/// The sample shop's slot: within its limits or near them.
pub const SLOT: &str = "/cut?op=slot&mill=bench_mill&stock=al_6061&cutter=3%20mm%20end%20mill,%202%20flutes\
    &kind=end_mill&of=hss&holder=collet&d_mm=3&teeth=2&out_mm=10&tir_in=0.0005&depth_in=0.060&length_in=1.500";
/// A cut of steel by a thin cutter that hangs far out: over its limits, with what would mend it.
pub const OVER: &str = "/cut?op=slot&mill=bench_mill&stock=steel_low_c&kind=end_mill&of=hss&d_mm=3\
    &teeth=4&out_mm=60&depth_in=0.060&passes=1&rpm=2800";
/// A side cut on the knee mill with every figure of one's own, a drawing of the feed and a chuck.
pub const SIDE: &str = "/cut?op=side&mill=knee_mill&stock=steel_low_c&kind=end_mill&of=hss&d_in=3/8\
    &teeth=4&out_in=1%201/8&tir_in=0.0020&width_in=0.0375&depth_in=0.375&v_ft_min=80&chip_in=0.0015&up_hp=1&climb=yes";
/// A hole, deep enough for pecks.
pub const DRILL: &str = "/cut?op=drill&mill=knee_mill&stock=ss_303&kind=drill&of=hss&d_mm=4.2&depth_in=0.500&through=no";
/// A face in rows.
pub const FACE: &str = "/cut?op=face&mill=knee_mill&stock=ci_grey&kind=fly_cutter&of=hss&d_in=2.5\
    &width_in=4&depth_in=0.015&length_in=4&v_ft_min=60&feed_in=0.008";
/// Checks of set-ups: the questions, magnesium under water, a face in the low range, a switch that
/// nobody has looked at, glass and air, and stops that are open.
pub const CHECKS: [&str; 9] = [
    "/check?step=you",
    "/check?step=set_up",
    "/check?step=power&op=slot&mill=bench_mill&stock=magnesium&kind=end_mill&of=hss&d_mm=3&teeth=2\
     &out_mm=10&depth_in=0.060&held=vise&put_on=water_mix",
    "/check?step=cut&held=straps",
    CHECK_FACE,
    "/check?step=start&held=vise&left=yes",
    CHECK_G10,
    "/check?step=ready&held=vise",
    "/check?step=records",
];
/// The face on the knee mill, about to start in its low range.
pub const CHECK_FACE: &str = "/check?step=start&op=face&mill=knee_mill&stock=ci_grey&kind=fly_cutter\
    &of=hss&d_in=2.5&width_in=4&depth_in=0.015&length_in=4&v_ft_min=60&feed_in=0.008&held=vise";
/// Chips of glass laminate, with air at hand.
pub const CHECK_G10: &str = "/check?step=chips&op=slot&mill=bench_mill&stock=g10_fr4&kind=end_mill\
    &of=carbide&d_in=1/8&teeth=2&out_in=3/8&depth_in=0.060&held=vise&is_air=yes";
/// Entries that nothing can be made of.
pub const FAULTY: &str = "/cut?op=side&mill=bench_mill&stock=al_6061&kind=end_mill&of=hss&d_in=500\
    &teeth=0&width_in=-1&depth_in=abc&length_in=0";
/// A blind tapped hole whose drill comes out of the far side.
pub const BREAKS_THROUGH: &str = "/threads?recipe&thread=1/4-20+UNC&through=no&full_in=0.5\
    &plate_in=0.750&percent=75&drill_in=%237&mill=knee_mill";

/// A side cut asked of both mills, the one set up for something else.
pub const WHICH: &str = "/which?busy=bench_mill&stack_in=6&op=side&mill=knee_mill&stock=steel_low_c\
    &kind=end_mill&of=hss&d_in=3/8&teeth=4&out_in=1%201/8&tir_in=0.0020&width_in=0.0375&depth_in=0.375\
    &v_ft_min=80&chip_in=0.0015&up_hp=1&passes=1";

/// The places of the sample shop.
pub const SAMPLE: &[&str] = &[
    "/",
    "/?change=mill",
    "/?change=stock",
    "/?change=cutter",
    "/?change=holding",
    SLOT,
    OVER,
    SIDE,
    DRILL,
    FACE,
    FAULTY,
    "/cut?next=operation",
    "/cut?next=stock",
    "/cut?next=cutter",
    "/cut?next=measures&op=side&d_in=1/2",
    "/cut?next=holding",
    "/pace?op=slot&mill=bench_mill&stock=al_6061&kind=end_mill&of=hss&holder=collet&d_mm=3&teeth=2\
     &out_mm=10&tir_in=0.0005&depth_in=0.060&length_in=1.500",
    "/pace?turns=13.6",
    "/convert?line_in=.1875%2B.030",
    "/convert?line_in=1.250+%2B.000/-.002",
    "/convert?line_in=1+-+3/8",
    "/convert?of=angle&line_in=30.2575",
    "/convert?of=hardness&scale=hrc&line_in=45",
    "/threads",
    "/threads?thread=1/4-20+UNC&through=no&full_in=0.5&plate_in=0.750&percent=75",
    "/threads?thread=10-32+UNF&percent=60&class=no&stock=ss_303",
    "/threads?thread=M6x1&tap=form_plug",
    "/threads?thread=1/8+NPT",
    "/threads?thread=M6x9",
    "/threads?measure",
    "/threads?measure&d_in=.188&tpi=32",
    "/threads?measure&on=hole&by=count&d_mm=5.05&count=10&over_mm=10",
    "/threads?measure&d_in=500&tpi=0",
    "/threads?recipe",
    BREAKS_THROUGH,
    "/threads?recipe&thread=M6x1&plate_in=0.5&mill=knee_mill&power=yes",
    "/threads?recipe&kind=clearance",
    "/threads?recipe&kind=counterbored&screw=1/4&plate_in=0.5",
    "/threads?recipe&kind=countersunk&screw=M5&plate_mm=12&through=no&depth_mm=8",
    "/threads?recipe&kind=reamed&hole_in=3/8&plate_in=1&stock=steel_low_c&mill=knee_mill",
    "/threads?recipe&thread=1/4-20&through=no&full_in=0.2&plate_in=0.5&depth_in=0.6&drill_in=1/4",
    "/threads?find&plate_in=0.500",
    "/threads?gauge&card",
    "/shop?drills",
    "/shop?drills=numbers",
    "/shop?wires",
    "/shop",
    "/shop?machine=knee_mill",
    "/shop?cutter=3_mm_end_mill_2_flutes",
    "/shop?settings",
    CHECKS[0],
    CHECKS[1],
    CHECKS[2],
    CHECKS[3],
    CHECKS[4],
    CHECKS[5],
    CHECKS[6],
    CHECKS[7],
    CHECKS[8],
    "/emergency",
    "/favorites",
    "/about",
    "/no-such-page",
    "/plan",
    "/plan?operation=1",
    "/plan?run",
    "/which",
    WHICH,
    "/shop?taps",
    "/take",
    "/shop?notes",
    "/jobs",
    "/jobs?job=base_plate",
    "/layout",
    "/layout?n=6&d_mm=60&x_in=2.5&y_in=2.5&part_x_in=5&part_y_in=5&hole_mm=4&depth_in=0.569&thread=M4x0.7",
    "/layout?n=6&d_mm=60&x_in=-2.5&y_in=-12.5&depth_in=0.569&thread=M4x0.7&at=2",
    "/layout?shape=polar&pr_in=1&pa=30&pr_in=1&pa=-&along_in=5&off_in=-0.01",
    "/setup",
    "/setup?at=face&tip_in=0.2",
    "/setup?at=middle&tip_in=0.2&travel_in=3.248",
    "/setup?at=parallels&jaw_in=1.375&part_in=0.75&cut_in=0.25&between_in=2&hole_in=0.25&hole_at_in=0.2",
    "/setup?at=strap&torque_lbf_in=20+lbf+ft&bolt_in=1/2&to_work_in=2&to_heel_in=1&force_lbf=600&part_in=0.5",
    "/setup?at=head&r_in=0.0045&sweep_in=8&rows_in=0.75&d_in=2&width_in=1.5",
    "/setup?at=vise&r_in=0.003&sweep_in=5&pivot_in=6&length_in=3",
    "/setup?at=wall&side=back&d_in=3/8&left_in=0.010&depth_in=0.180&pass_in=0.050&finish_in=0.008",
    "/setup?at=slot&d_in=3/8&slot_in=0.5",
    "/setup?at=exit&part_in=0.5&depth_in=1.7&on_in=1",
    "/setup?at=sine&bar_in=5&angle=30",
];

/// The places of an empty device.
pub const EMPTY: &[&str] = &[
    "/",
    "/?question=1",
    "/?question=2",
    "/?question=3",
    "/?question=4",
    "/cut",
    "/check?step=start",
    "/shop",
    "/favorites",
];

/// Opens the sample shop, from nothing on the device, and waits until it is saved.
pub async fn open_the_sample(page: &Page) {
    page.open("/").await;
    page.tap("Sample shop").await;
    page.sees("This is the sample shop").await;
    page.waits_for("the saved shop", "return !!localStorage['handwheel/current']").await;
}

/// Opens a place with everything unfolded and nothing moving.
pub async fn open_wide(page: &Page, place: &str) {
    page.open(place).await;
    unfold(page).await;
}

/// Unfolds everything and waits until nothing moves, such as the page's first deaf moment.
pub async fn unfold(page: &Page) {
    page.js("for (const fold of document.querySelectorAll('details')) fold.open = true;
             return Promise.all(document.getAnimations().map(a => a.finished)).then(() => true);")
        .await;
    page.frame().await;
}
