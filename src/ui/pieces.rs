//! The program in two pieces: what the first screen does without comes right after it.
//!
//! In a release the functions of `rest` and all that only they use are a file of their own, which
//! `public/pieces.sh` cuts out of the program. In every other build, without the cargo feature
//! `pieces`, they are part of the one program. A page that is named past this file, or a reader of
//! what is typed on the board, draws its share of the engine into the first load.

use core::{future::Future, pin::Pin};

use leptos::{prelude::*, wasm_split::SplitLoaderError};
use leptos_router::ChooseView;

use super::{
    components::{number_pad::NumberPad, page::Page},
    pages::{self, choosing::Part},
};
use crate::shop::{cuts::CutForm, document::Document};

/// A page of a piece, as a route shows it: the page before stays until this one is there.
#[derive(Clone, Copy)]
pub struct Later(pub fn() -> Coming<AnyView>);

/// What may have to be fetched first; `None` where that failed. Asking again tries again.
pub type Coming<T> = Pin<Box<dyn Future<Output = Option<T>> + Send>>;

impl ChooseView for Later {
    async fn choose(self) -> AnyView {
        (self.0)().await.unwrap_or_else(lost)
    }

    async fn preload(&self) {}
}

/// A page of a piece, as another page shows it in its place.
pub fn page(page: Coming<AnyView>) -> AnyView {
    Suspend::new(async move { page.await.unwrap_or_else(lost) }).into_any()
}

/// Something of a piece on a page that does without it as long as it is not there.
pub fn part(part: impl Future<Output = Option<AnyView>> + Send + 'static) -> AnyView {
    Suspend::new(part).into_any()
}

macro_rules! piece {
    ($piece:ident: $($name:ident($($given:ident: $type:ty),*) -> $what:ty = $make:expr;)*) => {
        /// A piece.
        pub mod $piece {
            use super::*;

            $(
                /// Of this piece.
                pub fn $name($($given: $type),*) -> Coming<$what> {
                    #[cfg_attr(
                        feature = "pieces",
                        leptos::wasm_split::wasm_split(
                            $piece, wasm_split_path = leptos::wasm_split, fallible
                        )
                    )]
                    fn $name($($given: $type),*) -> Result<$what, SplitLoaderError> {
                        Ok($make)
                    }
                    Box::pin(async move {
                        let made = $name($($given),*);
                        #[cfg(feature = "pieces")]
                        let made = made.await;
                        made.ok()
                    })
                }
            )*
        }
    };
}

// One piece: a second one would have to share most of the engine and of the components with it,
// and what is cut smaller is compressed worse. All in all it took a sixth more.
piece! { rest:
    about() -> AnyView = pages::about::About().into_any();
    check() -> AnyView = pages::check::Check().into_any();
    choosing(part: Part, for_cut: bool) -> AnyView =
        view! { <pages::choosing::Choosing part for_cut /> }.into_any();
    convert() -> AnyView = pages::convert::Convert().into_any();
    cut() -> AnyView = pages::cut::Cut().into_any();
    favorites() -> AnyView = pages::favorites::Favorites().into_any();
    layout() -> AnyView = pages::layout::Layout().into_any();
    jobs() -> AnyView = pages::jobs::Jobs().into_any();
    last_numbers(form: CutForm) -> AnyView =
        view! { <pages::home::LastNumbers form /> }.into_any();
    mill_detail() -> AnyView = pages::home::MillDetail().into_any();
    number_pad() -> AnyView = NumberPad().into_any();
    pace() -> AnyView = pages::pace::Pace().into_any();
    question(number: u32) -> AnyView = view! { <pages::welcome::Question number /> }.into_any();
    sample() -> Document = crate::shop::sample::sample();
    plan() -> AnyView = pages::plan::Plan().into_any();
    setup() -> AnyView = pages::setup::SetUp().into_any();
    shop() -> AnyView = pages::shop::Shop().into_any();
    take() -> AnyView = pages::take::Take().into_any();
    threads() -> AnyView = pages::threads::Threads().into_any();
    which() -> AnyView = pages::which::Which().into_any();
}

/// In the place of a page that did not arrive. The next way to it asks again.
fn lost() -> AnyView {
    view! {
        <Page title="Not here yet">
            <p>
                "This part of Handwheel could not be fetched. Try it again where there is a network, or open Handwheel anew. Once every part has been stored, no network is needed any more."
            </p>
        </Page>
    }
    .into_any()
}
