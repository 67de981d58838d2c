//! The building blocks of the screens, each on a page of its own, used as a person uses them.

use std::sync::{
    Arc,
    atomic::{AtomicI32, Ordering},
};

use handwheel::{
    engine::{
        answer::{Limit, Reading, State},
        cutters::{Cutter, Kind, Tip, ToolMaterial},
        quantity::{
            Angle, HandRate, Length, System, entry::Measure, rounding::Shown, value::Value,
        },
        question::{Field, Holder},
    },
    shop::typed::Typed,
    ui::components::{
        BigNumber, Button, Chip, Choice, Choices, Complaint, CutterPicture, Fold, GoTo, Notice,
        NumberField, NumberPad, Page, Picker, Scale, SecondNumber, Stepper, Toggle, UnitSwitch,
        provide_pad, ranking::ranked,
    },
};
use js_sys::{Function, Promise, futures::JsFuture};
use leptos::{mount::mount_to, prelude::*};
use leptos_router::components::Router;
use wasm_bindgen_test::wasm_bindgen_test;
use web_sys::{
    Element, HtmlElement, HtmlInputElement,
    wasm_bindgen::{JsCast, JsValue},
};

/// A page of its own for a view; it goes when the test ends.
struct Stage {
    root: HtmlElement,
    _handle: Box<dyn std::any::Any>,
}

impl Stage {
    fn new<V: IntoView + 'static>(view: impl FnOnce() -> V + 'static) -> Self
    where
        V::State: 'static,
    {
        let root: HtmlElement = document().create_element("div").unwrap().unchecked_into();
        document().body().unwrap().append_child(&root).unwrap();
        let handle = mount_to(root.clone(), view);
        Self { root, _handle: Box::new(handle) }
    }
    fn all(&self, selector: &str) -> Vec<Element> {
        let found = self.root.query_selector_all(selector).unwrap();
        (0..found.length()).map(|i| found.item(i).unwrap().unchecked_into()).collect()
    }
    fn one(&self, selector: &str) -> Element {
        self.root.query_selector(selector).unwrap().unwrap_or_else(|| {
            panic!("no {selector} in {}", self.root.inner_html());
        })
    }
    fn has(&self, selector: &str) -> bool {
        !self.all(selector).is_empty()
    }
    fn text(&self, selector: &str) -> String {
        self.one(selector).text_content().unwrap_or_default()
    }
    fn click(&self, selector: &str) {
        self.one(selector).unchecked_into::<HtmlElement>().click();
    }
    fn input(&self) -> HtmlInputElement {
        self.one("input").unchecked_into()
    }
    fn key(&self, selector: &str, key: &str) {
        let script = "element.dispatchEvent(new KeyboardEvent('keydown', \
                      { key, bubbles: true, cancelable: true }))";
        Function::new_with_args("element, key", script)
            .call2(&JsValue::NULL, &self.one(selector), &key.into())
            .unwrap();
    }
    /// A pointer event at a place.
    fn point(&self, selector: &str, kind: &str, x: i32) {
        let script = "const made = kind === 'click' ? MouseEvent : PointerEvent; \
                      element.dispatchEvent(new made(kind, { clientX: x, clientY: 9, \
                      isPrimary: true, pointerId: 1, bubbles: true, cancelable: true }))";
        Function::new_with_args("element, kind, x", script)
            .call3(&JsValue::NULL, &self.one(selector), &kind.into(), &x.into())
            .unwrap();
    }
    /// A finger comes down and goes up in the same place.
    fn tap(&self, selector: &str) {
        self.point(selector, "pointerdown", 9);
        self.point(selector, "pointerup", 9);
        self.point(selector, "click", 9);
    }
}

impl Drop for Stage {
    fn drop(&mut self) {
        self.root.remove();
    }
}

async fn wait(milliseconds: i32) {
    let promise = Promise::new(&mut |resolve, _| {
        let timer =
            window().set_timeout_with_callback_and_timeout_and_arguments_0(&resolve, milliseconds);
        timer.expect("a timer");
    });
    JsFuture::from(promise).await.expect("a timer never fails");
}

/// What the views take from signals they take a moment later.
async fn settle() {
    wait(30).await;
}

/// A field with its pad, and the signal that holds what is typed.
fn field(typed: Typed, field: Field) -> (Stage, RwSignal<Typed>) {
    let value = RwSignal::new(typed);
    let stage = Stage::new(move || {
        provide_pad();
        let chips = vec![Chip::new(handwheel::shop::typed::measure(field), Typed::inch("1/16"))];
        view! {
            <NumberField
                field
                value
                on_change=move |next| value.set(next)
                chips=Signal::stored(chips)
            />
            <NumberPad />
        }
    });
    (stage, value)
}

fn text(value: RwSignal<Typed>) -> String {
    value.get_untracked().text
}

#[wasm_bindgen_test]
async fn a_field_opens_the_pad_and_the_pad_types_into_it() {
    let (stage, value) = field(Typed::inch(""), Field::Depth);
    assert!(!stage.has(".pad"));
    stage.input().focus().unwrap();
    settle().await;
    for key in [".k1", ".ksp", ".k3", ".ksl", ".k8"] {
        stage.tap(key);
        wait(90).await;
    }
    assert_eq!(text(value), "1 3/8");
    assert_eq!(stage.input().value(), "1 3/8");
    assert!(stage.text(".field-second").contains("34.925 mm"), "{}", stage.text(".field"));
    assert!(stage.text(".pad-label").contains("34.925 mm"));
    stage.tap(".kdn");
    settle().await;
    assert!(!stage.has(".pad"));
    assert_eq!(text(value), "1 3/8");
}

#[wasm_bindgen_test]
async fn the_first_digit_takes_the_place_of_what_stood_there() {
    let (stage, value) = field(Typed::inch("0.25"), Field::Depth);
    stage.input().focus().unwrap();
    settle().await;
    stage.tap(".k3");
    wait(90).await;
    assert_eq!(text(value), "3");
    stage.tap(".kdn");
    settle().await;

    stage.click("input");
    settle().await;
    stage.tap(".kbk");
    assert_eq!(text(value), "");
}

#[wasm_bindgen_test]
async fn backspace_keeps_what_stood_there_and_clear_takes_it() {
    let (stage, value) = field(Typed::inch("0.25"), Field::Depth);
    stage.input().focus().unwrap();
    settle().await;
    stage.tap(".kbk");
    assert_eq!(text(value), "0.2");
    stage.tap(".k7");
    assert_eq!(text(value), "0.27");
    stage.tap(".kcl");
    assert_eq!(text(value), "");
}

#[wasm_bindgen_test]
async fn the_unit_key_changes_what_the_digits_mean_and_not_the_digits() {
    let (stage, value) = field(Typed::inch("3"), Field::Depth);
    assert_eq!(stage.text(".field-unit"), "in");
    stage.input().focus().unwrap();
    settle().await;
    stage.tap(".kun");
    settle().await;
    assert_eq!(value.get_untracked(), Typed::mm("3"));
    assert_eq!(stage.text(".field-unit"), "mm");
    assert!(stage.text(".field-second").contains("0.1181 in"));
}

#[wasm_bindgen_test]
async fn a_text_that_names_its_unit_shows_no_other_beside_it() {
    let (stage, _) = field(Typed::inch("3 mm"), Field::Depth);
    assert_eq!(stage.text(".field-unit"), "");
    assert!(stage.text(".field-second").contains("0.1181 in"));
}

#[wasm_bindgen_test]
async fn a_text_that_cannot_be_read_keeps_the_pad_open_and_says_why() {
    let (stage, value) = field(Typed::inch("3/"), Field::Depth);
    // A field that was not touched says so at once.
    assert!(stage.text(".error").contains("Below the stroke"));
    stage.input().focus().unwrap();
    settle().await;
    assert!(!stage.has(".error"), "half-typed is not wrong");
    stage.tap(".kdn");
    settle().await;
    assert!(stage.text(".pad-error").contains("Below the stroke"));
    stage.key("input", "Escape");
    settle().await;
    assert!(!stage.has(".pad"));
    stage.input().blur().unwrap();
    settle().await;
    let described = stage.input().get_attribute("aria-describedby").unwrap();
    assert!(stage.text(&format!("#{described}")).contains("Type the lower number too"));
    assert_eq!(stage.input().get_attribute("aria-invalid").unwrap(), "true");
    assert_eq!(text(value), "3/", "what was typed stays");
}

#[wasm_bindgen_test]
async fn the_pad_turns_to_signs_units_and_drills_and_back_to_digits() {
    let (stage, value) = field(Typed::inch(""), Field::Depth);
    stage.input().focus().unwrap();
    settle().await;
    let key = |stage: &Stage, word: &str| {
        let keys = stage.all(".pad .key");
        let found = keys.iter().find(|key| key.text_content().as_deref() == Some(word));
        found.unwrap_or_else(|| panic!("no key {word}")).unchecked_ref::<HtmlElement>().click();
    };
    for (word, wanted) in [
        ("+ − …", ""),
        ("( )", "("),
        ("2", "(2"),
        ("+ − …", "(2"),
        ("( )", "(2)"),
        ("+ − …", "(2)"),
        ("×", "(2)×"),
        ("3", "(2)×3"),
        ("+ − …", "(2)×3"),
        ("thou", "(2)×3 thou"),
    ] {
        key(&stage, word);
        wait(90).await;
        assert_eq!(text(value), wanted, "after {word}");
    }
    assert!(stage.text(".field-second").contains("0.0060 in"), "{}", stage.text(".field-second"));
    stage.tap(".kbk");
    assert_eq!(text(value), "(2)×3", "a unit goes as it came, at once");
    stage.tap(".kcl");
    key(&stage, "# A–Z");
    settle().await;
    key(&stage, "N – Z");
    settle().await;
    key(&stage, "Z");
    settle().await;
    assert_eq!(text(value), "Z");
    assert!(stage.has(".pad.first"), "digits follow");
    assert_eq!(stage.text(".field-unit"), "", "a drill has its own unit");
    assert!(stage.text(".field-second").contains("10.490 mm"));
}

#[wasm_bindgen_test]
async fn a_sum_goes_on_with_what_stood_there() {
    let (stage, value) = field(Typed::inch("1 3/8"), Field::Depth);
    stage.input().focus().unwrap();
    settle().await;
    stage.tap(".kmr");
    settle().await;
    stage.click("[aria-label=plus]");
    settle().await;
    stage.tap(".kpt");
    wait(90).await;
    stage.tap(".k5");
    assert_eq!(text(value), "1 3/8+.5");
}

#[wasm_bindgen_test]
async fn the_place_of_a_fault_is_marked_in_the_text() {
    let (stage, _) = field(Typed::inch("1.2.3"), Field::Depth);
    assert_eq!(stage.text(".field-marked"), "1.2.3");
    assert_eq!(stage.text(".field-marked mark"), ".");
    stage.input().focus().unwrap();
    settle().await;
    assert!(!stage.has(".pad mark"), "not while it is typed");
    stage.tap(".kdn");
    settle().await;
    assert_eq!(stage.text(".pad-typed mark"), ".");
    assert!(stage.text(".pad-error").contains("one point"));
}

#[wasm_bindgen_test]
async fn a_line_may_have_a_sign_and_limits_and_takes_the_focus() {
    let value = RwSignal::new(Typed::inch(""));
    let stage = Stage::new(move || {
        provide_pad();
        view! {
            <NumberField
                field=Field::Line
                line=Measure::Length
                at_once=true
                value
                on_change=move |next| value.set(next)
            />
            <NumberPad />
        }
    });
    wait(100).await;
    assert!(stage.has(".pad"), "the pad is open at once");
    for (line, other) in [("-1/4", "= -6.350 mm"), ("1.25 ±.002", "= 31.750 mm")] {
        value.set(Typed::inch(line));
        settle().await;
        assert!(stage.text(".pad-label").contains(other), "{}", stage.text(".pad-label"));
    }
    stage.tap(".kdn");
    settle().await;
    assert!(!stage.has(".pad") && !stage.has(".error"));
}

#[wasm_bindgen_test]
async fn what_the_engine_refuses_stands_at_the_field() {
    let stage = Stage::new(|| {
        provide_pad();
        let complaint = Complaint { problem: "Too deep.".into(), hint: "Take less.".into() };
        view! {
            <NumberField
                field=Field::Depth
                value=Signal::stored(Typed::inch("9"))
                on_change=|_| ()
                complaint=Signal::stored(Some(complaint))
            />
        }
    });
    assert_eq!(stage.text(".error strong"), "Too deep.");
    assert_eq!(stage.all(".error[data-status='over'] svg").len(), 1);
}

#[wasm_bindgen_test]
async fn a_keyboard_works_as_well_as_the_pad() {
    let (stage, value) = field(Typed::inch("0.25"), Field::Depth);
    stage.input().focus().unwrap();
    settle().await;
    // The browser types; before that the old text gives way.
    stage.key("input", "7");
    assert_eq!(stage.input().value(), "");
    stage.input().set_value("7");
    stage.point("input", "input", 0);
    assert_eq!(text(value), "7");
    stage.key("input", "Enter");
    settle().await;
    assert!(!stage.has(".pad"));
    assert_eq!(document().active_element().unwrap().tag_name(), "INPUT");
    stage.key("input", "Enter");
    settle().await;
    assert!(stage.has(".pad"), "Enter opens it again");
}

#[wasm_bindgen_test]
async fn a_field_that_goes_takes_its_pad_along() {
    let shown = RwSignal::new(true);
    let stage = Stage::new(move || {
        provide_pad();
        let value = RwSignal::new(Typed::inch("1"));
        view! {
            <Show when=move || shown.get()>
                <NumberField field=Field::Depth value on_change=move |next| value.set(next) />
            </Show>
            <NumberPad />
        }
    });
    stage.input().focus().unwrap();
    settle().await;
    assert!(stage.has(".pad"));
    shown.set(false);
    settle().await;
    assert!(!stage.has(".pad"));
}

#[wasm_bindgen_test]
async fn a_usual_value_is_one_tap() {
    let (stage, value) = field(Typed::inch("1"), Field::Depth);
    assert_eq!(stage.text(".chip"), "1/16 in");
    assert_eq!(stage.one(".chip").get_attribute("aria-pressed").unwrap(), "false");
    stage.tap(".chip");
    settle().await;
    assert_eq!(value.get_untracked(), Typed::inch("1/16"));
    assert_eq!(stage.one(".chip").get_attribute("aria-pressed").unwrap(), "true");
}

#[wasm_bindgen_test]
async fn digits_act_when_the_finger_comes_down_and_not_twice_when_it_bounces() {
    let (stage, value) = field(Typed::inch(""), Field::Teeth);
    stage.input().focus().unwrap();
    settle().await;
    assert!(!stage.has(".kpt") && !stage.has(".ksl"), "flutes are counted in whole ones");
    stage.point(".k4", "pointerdown", 9);
    assert_eq!(text(value), "4");
    stage.point(".k4", "click", 9);
    stage.point(".k4", "pointerdown", 9);
    assert_eq!(text(value), "4", "less than 80 ms later");
    wait(90).await;
    stage.tap(".k4");
    assert_eq!(text(value), "44");
    wait(90).await;
    stage.click(".k2");
    assert_eq!(text(value), "442", "an assistive device clicks without a finger");
}

/// A button, and how often it did what it does.
fn counted() -> (Stage, Arc<AtomicI32>) {
    let count = Arc::new(AtomicI32::new(0));
    let counting = count.clone();
    let stage = Stage::new(move || {
        let press = move |()| {
            counting.fetch_add(1, Ordering::Relaxed);
        };
        view! { <Button on_press=press>"Keep"</Button> }
    });
    (stage, count)
}

#[wasm_bindgen_test]
async fn a_button_does_once_what_is_tapped_twice_within_400_ms() {
    let (stage, count) = counted();
    stage.tap("button");
    wait(150).await;
    stage.tap("button");
    assert_eq!(count.load(Ordering::Relaxed), 1);
    wait(450).await;
    stage.tap("button");
    assert_eq!(count.load(Ordering::Relaxed), 2);
}

#[wasm_bindgen_test]
async fn a_finger_that_slides_has_changed_its_mind() {
    let (stage, count) = counted();
    stage.point("button", "pointerdown", 10);
    stage.point("button", "click", 50);
    assert_eq!(count.load(Ordering::Relaxed), 0);
    stage.point("button", "pointerdown", 10);
    stage.point("button", "click", 20);
    assert_eq!(count.load(Ordering::Relaxed), 1);
}

#[wasm_bindgen_test]
async fn a_stepper_steps_once_for_a_tap_and_on_while_it_is_held() {
    let value = RwSignal::new(4);
    let stage = Stage::new(move || {
        view! {
            <Stepper
                label="Flutes"
                value=Signal::derive(move || value.get().to_string())
                on_step=move |step| value.update(|value| *value += step)
                less=Signal::derive(move || value.get() > 1)
            />
        }
    });
    let (less, more) = ("[aria-label='Flutes: less']", "[aria-label='Flutes: more']");
    stage.tap(more);
    assert_eq!(value.get_untracked(), 5);
    stage.point(more, "pointerdown", 9);
    wait(450).await;
    assert_eq!(value.get_untracked(), 5, "not yet");
    wait(600).await;
    let held = value.get_untracked();
    assert!((8..=10).contains(&held), "500 ms, then eight a second: {held}");
    stage.point(more, "pointerup", 9);
    stage.point(more, "click", 9);
    wait(300).await;
    assert_eq!(value.get_untracked(), held, "letting go is no step");
    value.set(1);
    settle().await;
    assert_eq!(stage.one(less).get_attribute("aria-disabled").unwrap(), "true");
    stage.tap(less);
    assert_eq!(value.get_untracked(), 1);
}

#[wasm_bindgen_test]
async fn one_of_several_is_told_by_a_tick_and_a_word() {
    let chosen = RwSignal::new(Some(1));
    let of = Signal::stored(vec![Choice::new(1, "Slot"), Choice::new(2, "Side").detail("an edge")]);
    let stage = Stage::new(move || {
        view! { <Choices name="Operation" of chosen on_choose=move |next| chosen.set(Some(next)) /> }
    });
    assert_eq!(stage.text("legend"), "Operation: Slot");
    let inputs = stage.all("input[type=radio]");
    assert_eq!(inputs[0].get_attribute("name"), inputs[1].get_attribute("name"));
    assert!(inputs[0].unchecked_ref::<HtmlInputElement>().checked());
    inputs[1].unchecked_ref::<HtmlElement>().click();
    settle().await;
    assert_eq!(chosen.get_untracked(), Some(2));
    assert_eq!(stage.text("legend"), "Operation: Side");
}

#[wasm_bindgen_test]
async fn a_few_letters_find_one_of_many() {
    let names = ["Low-carbon steel 1018", "6061 aluminium", "Aluminium bronze", "Brass C360"];
    let found = |query: &str| {
        ranked(query, names).into_iter().map(|place| names[place]).collect::<Vec<_>>()
    };
    assert_eq!(found("6061"), ["6061 aluminium"]);
    assert_eq!(found("alu"), ["Aluminium bronze", "6061 aluminium"]);
    assert_eq!(found("steel low"), ["Low-carbon steel 1018"]);
    assert_eq!(found("360"), ["Brass C360"]);
    assert_eq!(found("brs"), ["Brass C360"], "letters in order are a last resort");
    assert_eq!(found(""), names);
    assert!(found("zirconium").is_empty());

    let of = names.map(|name| Choice::new(name, name));
    let of = Signal::stored([&of[..], &[Choice::new("pom", "Acetal").also("Delrin")]].concat());
    let chosen = RwSignal::new(None);
    let stage = Stage::new(move || {
        let choose = move |next| chosen.set(Some(next));
        view! { <Picker name="Stock" of chosen on_choose=choose example="6061" /> }
    });
    assert_eq!(stage.all(".choice").len(), 5);
    let search: HtmlInputElement = stage.one("input[type=text]").unchecked_into();
    search.set_value("delrin");
    stage.point("input[type=text]", "input", 0);
    settle().await;
    assert_eq!(stage.text(".choice-words").trim(), "Acetal");
    assert_eq!(stage.text("[role=status]"), "One found.");
    stage.click("input[type=radio]");
    assert_eq!(chosen.get_untracked(), Some("pom"));
    search.set_value("zirconium");
    stage.point("input[type=text]", "input", 0);
    settle().await;
    assert!(stage.text("[role=status]").contains("Nothing is called that"));
}

fn reading(utilisation: f64, state: State) -> Reading {
    let rate = |turns| Value::HandRate(HandRate::turns_per_min(turns));
    Reading {
        limit: Limit::Wheel,
        utilisation,
        state,
        value: rate(45.0),
        near_at: rate(40.0),
        over_at: rate(60.0),
        working: Vec::new(),
        sources: "",
    }
}

#[wasm_bindgen_test]
async fn a_limit_is_told_by_shape_word_and_place() {
    let shown = RwSignal::new(reading(1.25, State::Near));
    let system = Signal::stored(System::Inch);
    let stage = Stage::new(move || view! { <Scale reading=shown system /> });
    for (utilisation, state, word, place) in [
        (0.0, State::Within, "within", "0.00%"),
        (1.25, State::Near, "near", "50.00%"),
        (2.0, State::Near, "near", "80.00%"),
        (9.0, State::Over, "over", "100.00%"),
        (f64::NAN, State::Over, "over", "100.00%"),
        (f64::INFINITY, State::Over, "over", "100.00%"),
    ] {
        shown.set(reading(utilisation, state));
        settle().await;
        assert_eq!(stage.one(".scale").get_attribute("data-status").unwrap(), word);
        assert_eq!(stage.all(".scale-name svg.state-shape").len(), 1);
        assert_eq!(stage.text(".scale-figure"), format!("{word}: 45.0 of 60.0 turns/min"));
        assert_eq!(stage.one(".pointer-place").get_attribute("x").unwrap(), place);
        assert_eq!(stage.one(".fill").get_attribute("width").unwrap(), place);
    }
}

#[wasm_bindgen_test]
async fn a_switch_says_how_it_stands() {
    let on = RwSignal::new(false);
    let stage = Stage::new(move || {
        view! { <Toggle label="Worn" on on_change=move |next| on.set(next) said=("yes", "no") /> }
    });
    let checked = || stage.one("[role=switch]").get_attribute("aria-checked").unwrap();
    assert_eq!((checked().as_str(), stage.text(".toggle-state").as_str()), ("false", "no"));
    stage.tap("[role=switch]");
    settle().await;
    assert_eq!((checked().as_str(), stage.text(".toggle-state").as_str()), ("true", "yes"));
    assert!(on.get_untracked());
}

#[wasm_bindgen_test]
async fn the_units_change_with_one_tap() {
    let system = RwSignal::new(System::Inch);
    let stage = Stage::new(move || {
        view! { <UnitSwitch system on_change=move |next| system.set(next) /> }
    });
    assert_eq!(stage.text(".on"), "in");
    assert!(stage.text("button").contains("now inches"));
    stage.tap("button");
    settle().await;
    assert_eq!(system.get_untracked(), System::Metric);
    assert_eq!(stage.text(".on"), "mm");
}

#[wasm_bindgen_test]
async fn results_are_marked_by_their_rank() {
    let shown = |digits: &str, unit| Signal::stored(Shown { digits: digits.to_owned(), unit });
    let stage = Stage::new(move || {
        view! {
            <BigNumber label="Set" shown=shown("2800", "rpm") why="Top of this mill." />
            <div class="cells">
                <SecondNumber label="Depth" shown=shown("2 × 0.030", "in") note="to 0.060" />
            </div>
        }
    });
    assert_eq!(stage.text("[data-result=key]"), "2800");
    assert_eq!(stage.text("[data-result=second]"), "2 × 0.030");
    assert!(stage.text(".big[aria-live=polite]").contains("Top of this mill."));
}

#[wasm_bindgen_test]
async fn a_notice_speaks_from_a_region_that_was_there_before() {
    let message = RwSignal::new(None);
    let stage = Stage::new(move || view! { <Notice message>"button"</Notice> });
    assert_eq!(stage.text("[role=status]"), "");
    message.set(Some("Saved.".to_owned()));
    settle().await;
    assert_eq!(stage.text("[role=status]"), "Saved.button");
}

#[wasm_bindgen_test]
async fn a_fold_unfolds() {
    let stage = Stage::new(|| view! { <Fold title="Working">"n = v / (pi D)"</Fold> });
    assert!(!stage.one("details").has_attribute("open"));
    stage.click("summary");
    assert!(stage.one("details").has_attribute("open"));
}

#[wasm_bindgen_test]
async fn a_page_is_read_from_its_heading() {
    let stage = Stage::new(|| {
        view! {
            <Router>
                <Page title="Cut" bar=|| view! { <GoTo to="check">"Check"</GoTo> }>
                    <GoTo to="./">"On the mill"</GoTo>
                </Page>
            </Router>
        }
    });
    settle().await;
    assert_eq!(document().active_element(), Some(stage.one("h1")));
    assert_eq!(document().title(), "Cut – Handwheel");
    assert_eq!(stage.all("h1").len(), 1);
    let href = |selector| stage.one(selector).get_attribute("href").unwrap();
    assert_eq!((href("header a"), href("footer a")), ("./".to_owned(), "check".to_owned()));
    assert_eq!(stage.one("header a").get_attribute("aria-label").unwrap(), "Back");
    assert_eq!(stage.one("main a").get_attribute("aria-current").as_deref(), Some("page"));
    assert_eq!(stage.one("footer a").get_attribute("aria-current"), None);
}

#[wasm_bindgen_test]
async fn every_kind_of_cutter_can_be_drawn() {
    let angle = Angle::degree(90.0);
    let kinds = [
        Kind::EndMill { tip: Tip::Square, center_cutting: true },
        Kind::EndMill { tip: Tip::Ball, center_cutting: true },
        Kind::EndMill { tip: Tip::CornerRadius(Length::mm(1.0)), center_cutting: false },
        Kind::FaceMill { entering_angle: Angle::degree(45.0) },
        Kind::FlyCutter,
        Kind::SlittingSaw { thickness: Length::mm(0.5) },
        Kind::Drill { point_angle: angle },
        Kind::SpotDrill { point_angle: angle },
        Kind::Reamer,
        Kind::Countersink { included_angle: angle },
        Kind::BoringHead,
        Kind::EdgeFinder,
        Kind::Tap { pitch: Length::mm(1.0) },
    ];
    let holders = [Holder::Collet, Holder::SetScrew, Holder::DrillChuck, Holder::Arbor];
    let cutter = RwSignal::new(Cutter {
        kind: kinds[0],
        diameter: Length::mm(6.0),
        teeth: 2,
        material: ToolMaterial::Hss,
        coated: false,
        flute_length: Length::mm(13.0),
        shank: Length::mm(6.0),
        stickout: Length::mm(24.0),
        helix: Angle::degree(30.0),
    });
    let holder = RwSignal::new(Holder::Collet);
    let system = RwSignal::new(System::Metric);
    let stage = Stage::new(move || view! { <CutterPicture cutter holder system /> });
    assert!(stage.text("figcaption").contains("24.000 mm, 4.0 times"));
    for (i, kind) in kinds.into_iter().enumerate() {
        for diameter in [0.3, 6.0, 80.0] {
            holder.set(holders[i % holders.len()]);
            cutter.update(|cutter| {
                cutter.kind = kind;
                cutter.diameter = Length::mm(diameter);
            });
            settle().await;
            let drawn = stage.one("svg").inner_html();
            assert!(drawn.contains("outline"), "{kind:?}");
            assert!(!drawn.contains("NaN") && !drawn.contains("inf"), "{kind:?}: {drawn}");
        }
    }
    cutter.update(|cutter| cutter.stickout = Length::ZERO);
    settle().await;
    assert!(!stage.has("svg"), "nothing can be drawn of it");
}
