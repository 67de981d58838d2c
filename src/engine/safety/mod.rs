//! What a person checks before a cut: rules as data, and the choice among them for one set-up.
//!
//! [`Context`] is all that is known of the set-up, each part of it possibly unknown. A [`Rule`] has
//! a condition over [`Fact`]s of it, in three-valued logic: a rule is left out only where its
//! condition is certainly not met. [`checklist`](list::checklist) chooses, orders and groups. The
//! rules are practice and published duties of others; none of them says that anything is safe.

pub mod context;
pub mod direction;
pub mod fact;
pub mod list;
mod wording;

pub use context::Context;
pub use fact::Fact;

/// When a rule is looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Phase {
    /// Power is still off.
    BeforePower,
    /// Everything is set, the spindle stands.
    BeforeStart,
    /// The first cut of a set-up.
    FirstCut,
    /// Chips are cleared, the spindle stands.
    Chips,
    /// The cut is done.
    After,
}

impl Phase {
    /// All of them, in their order.
    pub const ALL: [Self; 5] =
        [Self::BeforePower, Self::BeforeStart, Self::FirstCut, Self::Chips, Self::After];
}

/// How much a rule weighs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// Nothing goes on before it is done.
    Stop,
    /// It hurts or spoils, more slowly.
    Caution,
    /// It is easily forgotten.
    Reminder,
}

/// What a rule is about: rules of a kind are ticked together where there are many.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[allow(missing_docs, reason = "each is named after what it is about")]
pub enum Group {
    Body,
    Place,
    Holding,
    Tool,
    Fluid,
    LastLook,
    Cut,
    Attention,
    Chips,
    Leaving,
    Direction,
    Stock,
}

/// A fact, or its opposite.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Term {
    /// The fact.
    pub fact: Fact,
    /// As it is, or the opposite.
    pub is: bool,
}

/// One rule of the table.
#[derive(Debug, PartialEq, Eq)]
pub struct Rule {
    /// Name that never changes.
    pub id: &'static str,
    /// When it is looked at.
    pub phase: Phase,
    /// What it is about.
    pub group: Group,
    /// Any of these lists, each of which holds when all its terms do; empty for a rule that always
    /// holds.
    pub(crate) condition: &'static [&'static [Term]],
    /// What to do, with places for figures in braces.
    pub(crate) item: &'static str,
    /// What to do where a figure or the condition itself is not known; may be empty.
    pub(crate) item_open: &'static str,
    /// Why.
    pub why: &'static str,
    /// How much it weighs.
    pub severity: Severity,
    /// Tags of the sources.
    pub sources: &'static str,
    /// The rule that says enough where this one's condition is not known.
    pub covered_by: Option<&'static str>,
    /// True where it is looked at every time, whatever was looked at an hour ago.
    pub kept: bool,
    /// The rule that does not count where this one certainly holds.
    pub overrules: Option<&'static str>,
}

include!(concat!(env!("OUT_DIR"), "/rules.rs"));

/// The rule with this id.
#[must_use]
pub fn rule(id: &str) -> Option<&'static Rule> {
    RULES.iter().find(|rule| rule.id == id)
}

impl Rule {
    /// Whether its condition is met; `None` where that is not known.
    #[must_use]
    pub fn holds(&self, context: &Context) -> Option<bool> {
        if self.condition.is_empty() {
            return Some(true);
        }
        let all = |terms: &&[Term]| {
            let each = terms.iter().map(|t| t.fact.of(context).map(|fact| fact == t.is));
            fold(each, false)
        };
        fold(self.condition.iter().map(all), true)
    }

    /// True for a rule that holds whatever the set-up.
    #[must_use]
    pub fn is_always(&self) -> bool {
        self.condition.is_empty()
    }
}

/// Any (`decides` true) or all (`decides` false) of several, in three-valued logic: one deciding
/// value decides, else one that is not known leaves it open.
pub(crate) fn fold(each: impl Iterator<Item = Option<bool>>, decides: bool) -> Option<bool> {
    let mut open = false;
    for one in each {
        match one {
            Some(value) if value == decides => return Some(decides),
            Some(_) => {}
            None => open = true,
        }
    }
    (!open).then_some(!decides)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn three_valued_logic() {
        let all = |values: &[Option<bool>]| fold(values.iter().copied(), false);
        let any = |values: &[Option<bool>]| fold(values.iter().copied(), true);
        let (yes, no) = (Some(true), Some(false));
        assert_eq!(all(&[yes, yes]), yes);
        assert_eq!(all(&[yes, None]), None);
        assert_eq!(all(&[None, no]), no);
        assert_eq!(any(&[no, no]), no);
        assert_eq!(any(&[no, None]), None);
        assert_eq!(any(&[None, yes]), yes);
    }

    #[test]
    fn a_rule_that_covers_another_is_a_stop_and_open_itself_to_nothing() {
        for rule in &RULES {
            let Some(by) = rule.covered_by else { continue };
            let by = super::rule(by).expect("the build looked");
            assert_eq!(by.severity, Severity::Stop, "{}", rule.id);
            assert!(by.covered_by.is_none(), "{}", rule.id);
        }
    }

    #[test]
    fn words_are_neutral_and_short() {
        for rule in &RULES {
            for text in [rule.item, rule.item_open, rule.why] {
                let low = text.to_lowercase();
                for word in ["you are safe", "is safe", "osha", "compliant"] {
                    assert!(!low.contains(word), "{}: {text}", rule.id);
                }
            }
            assert!(!rule.why.ends_with('.') && !rule.item.ends_with('.'), "{}", rule.id);
        }
    }
}
