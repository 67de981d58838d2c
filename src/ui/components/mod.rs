//! The building blocks of the screens.
//!
//! Values come in as signals and go out through callbacks, so that a page may keep them where it
//! likes: in a signal, in the address, in the saved document. `Signal<…>` props take a plain
//! value, a signal or a closure wrapped by `Signal::derive`.
//!
//! | component | props | for |
//! |---|---|---|
//! | [`Page`] | `title`, `back=true`, `back_to=HOME`, `right=\|\| view`, `bar=\|\| view`, children | the frame: head, body, actions at the lower edge |
//! | [`Split`] | `answer=\|\| view`, `names`, children (inputs) | answer and inputs, side by side where there is room; class `stay` on the answer's first child keeps it in view on a phone |
//! | [`GoTo`] | `to`, `class`, `label`, children | a link to a page: `to="cut?depth=1/8"`, [`HOME`]; `class=Rank::Primary.class()` makes it look like a button |
//! | [`Tile`] | `to`, `name`, `detail`, `sketch`, `across` | a door to a page; several stand in `<div class="doors">` |
//! | [`Choices`] | `name`, `of: Vec<Choice<T>>`, `chosen: Option<T>`, `on_choose`, `rows` | one of several, as tiles with arrow keys |
//! | [`Button`] | `rank`, `on_press`, children | does one thing once |
//! | [`NumberField`] | `field`, `label`, `value: Typed`, `on_change`, `placeholder`, `complaint`, `chips: Vec<Chip>` | a number as it was typed, with unit |
//! | [`NumberPad`] | – | once at the end of the app, after [`provide_pad`] |
//! | [`BigNumber`] | `label`, `shown: Shown`, `why` | the number to set; one on a page |
//! | [`SecondNumber`] | `label`, `shown: Shown`, `note` | results beside it; several stand in `<div class="cells">` |
//! | [`Scale`] | `reading: Reading`, `system` | one limit on its graduated scale |
//! | [`Stepper`] | `label`, `value`, `on_step: ±1`, `less`, `more` | − value + |
//! | [`Toggle`] | `label`, `on`, `on_change`, `said=("on", "off")` | a switch with words |
//! | [`YesNo`] | `label`, `answer: Option<bool>`, `on_answer` | a question that may stay open |
//! | [`UnitSwitch`] | `system`, `on_change` | inch or millimetre, for the `right` of a page |
//! | [`Fold`] | `title`, `open`, children | what is one tap away |
//! | [`LateFold`] | `title`, `class`, children | the same for a long text, made when it is looked at |
//! | [`Notice`] | `message: Option<String>`, children (buttons) | something to know, in a polite live region |
//! | [`Picker`] | as `Choices`, and `example` | one of many, with a search field |
//! | [`search_field::SearchField`] | `label`, `text`, `found` | a field to look through a list with |
//! | [`CutterPicture`] | `cutter`, `holder`, `system` | the cutter as it stands in its holder, to scale |
//! | [`mark::Mark`] | `name`, `on`, `on_press` | one of many small things to mark |
//! | [`thread_picture::ThreadPicture`] | `profile`, `words` | a tapped hole in section, to scale |
//! | [`measuring_picture::MeasuringPicture`] | `of`, `words` | where to measure a thread |
//! | [`hand_over::hand_over`] | `app`, `list`, `id` | folds out the code of one thing, for another phone |
//! | [`hole_picture::HolePicture`] | `section`, `system` | a hole in its plate in section, to scale, every depth labelled |
//! | [`working`] | an answer, `system` | its figures with their formulas and sources |
//! | [`TextField`] | `label`, `value: String`, `on_change`, `placeholder`, `complaint`, `usual` | a name, by the phone's keyboard |
//! | [`AskTwice`] | `ask`, `sentence`, `act`, `on_act` | what takes away: one tap asks, another does it |
//! | [`ErrorText`] | `id`, `complaint` | a sentence and a hint at its field; [`complaint_at`] finds it among the engine's errors |
//! | [`StateMark`] | `state`, `word` | disc, triangle or square with its word |
//! | [`Rule`] | – | the engraved edge, an ornament |

pub mod ask_twice;
pub mod button;
pub mod choice;
pub mod cutter_picture;
pub mod error_text;
pub mod fold;
pub mod go_to;
pub mod hand_over;
pub mod hole_picture;
pub mod mark;
pub mod measuring_picture;
pub mod notice;
pub mod number_field;
pub mod number_pad;
pub mod numbers;
pub mod page;
pub mod picker;
pub mod press;
pub mod ranking;
pub mod rule;
pub mod scale;
pub mod search_field;
pub mod state_mark;
pub mod stepper;
pub mod text_field;
pub mod thread_picture;
pub mod toggle;
pub mod working;
pub mod yes_no;

pub use ask_twice::AskTwice;
pub use button::{Button, Rank};
pub use choice::{Choice, Choices};
pub use cutter_picture::CutterPicture;
pub use error_text::{Complaint, ErrorText, complaint_at};
pub use fold::{Fold, LateFold};
pub use go_to::{GoTo, HOME, Tile};
pub use notice::Notice;
pub use number_field::{Chip, NumberField};
pub use number_pad::{NumberPad, Pad, provide_pad};
pub use numbers::{BigNumber, SecondNumber};
pub use page::{Page, Split};
pub use picker::Picker;
pub use rule::Rule;
pub use scale::Scale;
pub use state_mark::StateMark;
pub use stepper::Stepper;
pub use text_field::TextField;
pub use toggle::{Toggle, UnitSwitch};
pub use working::working;
pub use yes_no::YesNo;
