//! What comes in from elsewhere, shown before anything is written: a backup file, or a code of
//! another phone.

use leptos::prelude::*;
use leptos_router::hooks::use_location;

use crate::{
    shop::{
        document::Document,
        hand_over,
        incoming::{Joined, join},
    },
    ui::{
        components::{
            button::{Button, Rank},
            error_text::Complaint,
            page::Page,
            text_field::TextField,
        },
        state::App,
    },
};

/// The page of a code that was scanned or is pasted.
#[component]
pub fn Take() -> impl IntoView {
    let app = App::get();
    let hash = use_location().hash;
    let code = RwSignal::new(String::new());
    // A link that is opened while the app stands here changes the place alone.
    Effect::new(move || {
        let scanned = hash.get();
        if !scanned.is_empty() {
            code.set(scanned.trim_start_matches('#').to_owned());
        }
    });
    let read = Memo::new(move |_| {
        let code = code.read();
        (!code.trim().is_empty()).then(|| hand_over::read(&code))
    });
    let complaint = Signal::derive(move || match read.get() {
        Some(Err(problem)) => Some(Complaint {
            problem,
            hint: "Scan it again, or copy the code there and paste all of it here.".to_owned(),
        }),
        _ => None,
    });
    let go = app.way();
    let done = Callback::new(move |()| go("shop"));
    view! {
        <Page title="Take something in" back_to="shop">
            <p>
                "Another phone shows a code for a mill, a cutter or a favorite: under “Hand over”. Point the camera of this phone at it and open the link, or copy the code there and paste it here."
            </p>
            <TextField
                label="The code"
                value=code
                on_change=move |text: String| code.set(text)
                complaint
            />
            {move || match read.get() {
                Some(Ok(document)) => offered(app, &document, false, done).into_any(),
                _ => ().into_any(),
            }}
        </Page>
    }
}

/// What a document from elsewhere holds, what of it is new here, and the ways to take it in.
pub fn offered(app: App, theirs: &Document, whole: bool, done: Callback<()>) -> AnyView {
    let (held, here) = (counted(theirs), counted(&app.document.read_untracked()));
    let joined = join(&app.document.read_untracked(), theirs);
    let lines = match &joined {
        Ok(joined) => lines_of(joined),
        Err(problem) => vec![problem.clone()],
    };
    let taken = joined.ok().filter(|j| !j.new.is_empty() || !j.both.is_empty() || whole);
    let (theirs, joined) = (StoredValue::new(theirs.clone()), StoredValue::new(taken));
    let add = move |()| {
        if let Some(Joined { document, .. }) = joined.get_value() {
            app.take_in("What came in is added.", document);
        }
        done.run(());
    };
    let replace = move |()| {
        app.replace("What was here before", theirs.get_value());
        done.run(());
    };
    let has_new = joined.with_value(Option::is_some);
    view! {
        <div class="panel stack" role="alert">
            <p>{format!("It holds {held}.")}</p>
            {lines.into_iter().map(|line| view! { <p>{line}</p> }).collect_view()}
            {has_new.then(|| view! { <Button on_press=add>"Add what is new"</Button> })}
            {whole
                .then(|| {
                    view! {
                        <p>
                            {format!(
                                "Or it takes the place of all that is here: {here}, with settings, notes and checks. Undo brings them back.",
                            )}
                        </p>
                        <Button rank=Rank::Secondary on_press=replace>
                            "Put it in place of mine"
                        </Button>
                    }
                })}
            <Button rank=Rank::Secondary on_press=move |()| done.run(())>
                "Leave things as they are"
            </Button>
        </div>
    }
    .into_any()
}

/// So many names are said.
const NAMED: usize = 6;

fn lines_of(joined: &Joined) -> Vec<String> {
    let named = |names: &[String]| {
        let said = names.iter().take(NAMED).cloned().collect::<Vec<_>>().join("; ");
        match names.len().saturating_sub(NAMED) {
            0 => said,
            more => format!("{said}; and {more} more"),
        }
    };
    let mut lines = Vec::new();
    if !joined.new.is_empty() {
        lines.push(format!("New here: {}.", named(&joined.new)));
    }
    if !joined.both.is_empty() {
        lines.push(format!(
            "Here too, but different, so that both are kept: {}.",
            named(&joined.both)
        ));
    }
    match joined.same {
        0 => {}
        1 => lines.push("One thing is here already.".to_owned()),
        many => lines.push(format!("{many} things are here already.")),
    }
    if joined.new.is_empty() && joined.both.is_empty() {
        lines.push("Nothing by name is new.".to_owned());
    }
    lines
}

fn counted(document: &Document) -> String {
    let counts = [
        (document.machines.len(), "mill"),
        (document.cutters.len(), "cutter"),
        (document.favorites.len(), "favorite"),
        (document.jobs.len(), "job card"),
    ];
    let said: Vec<String> = counts
        .into_iter()
        .filter(|(count, _)| *count > 0)
        .map(|(count, one)| if count == 1 { format!("1 {one}") } else { format!("{count} {one}s") })
        .collect();
    match said.as_slice() {
        [] => "no mill, cutter, favorite or job card".to_owned(),
        [one] => one.clone(),
        [some @ .., last] => format!("{} and {last}", some.join(", ")),
    }
}
