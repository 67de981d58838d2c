//! Favorites of every screen, what was looked at last, and job cards.

use handwheel::shop::{
    document::{Document, Favorite},
    jobs::{Job, Step},
    recent::{Recents, is_ours},
    restore::restore,
    sample::sample,
};
use proptest::prelude::*;

fn names(shop: &Document) -> Vec<&str> {
    shop.favorites_shown().map(|favorite| favorite.name.as_str()).collect()
}

#[test]
fn a_favorite_opens_the_screen_it_was_made_of() {
    let mut shop = Document::default();
    for to in
        ["cut?op=slot", "threads?recipe&thread=M4x0.7", "convert?line=1+3%2F8", "check?op=slot"]
    {
        let id = shop.add_favorite("One", to);
        let kept = shop.favorites.iter().find(|favorite| favorite.id == id).unwrap();
        assert_eq!(kept.to(), to);
        assert_eq!(shop.favorite_at(to).map(|f| f.id.as_str()), Some(id.as_str()));
    }
}

#[test]
fn an_address_that_leaves_the_app_opens_nothing_else() {
    for page in ["//evil", "javascript:alert(1)", "https://x", "../up", "a/b", "CUT"] {
        let favorite =
            Favorite { page: page.into(), link: "op=slot".into(), ..Favorite::default() };
        assert_eq!(favorite.to(), "cut?op=slot");
        assert!(!is_ours(&format!("{page}?op=slot")), "{page}");
    }
    assert!(is_ours("jobs") && is_ours("cut?to=//x") && !is_ours("") && !is_ours("?op=slot"));
}

#[test]
fn starred_ones_stand_first_and_each_moves_among_its_like() {
    let mut shop = Document::default();
    for name in ["d", "c", "b", "a"] {
        shop.add_favorite(name, &format!("cut?cutter={name}"));
    }
    assert_eq!(names(&shop), ["a", "b", "c", "d"]);
    shop.favorites[2].starred = true;
    assert_eq!(names(&shop), ["c", "a", "b", "d"]);
    let id = shop.favorites[3].id.clone();
    shop.move_favorite(&id, false);
    assert_eq!(names(&shop), ["c", "a", "d", "b"]);
    shop.move_favorite(&id, true);
    shop.move_favorite(&id, true);
    assert_eq!(names(&shop), ["c", "a", "b", "d"]);
    let starred = shop.favorites_shown().next().unwrap().id.clone();
    shop.move_favorite(&starred, true);
    shop.move_favorite("nobody", true);
    assert_eq!(names(&shop), ["c", "a", "b", "d"]);
}

#[test]
fn what_was_looked_at_again_stands_once_and_first() {
    let mut recents = Recents::default();
    for n in 0..30 {
        recents.note(format!("Cut {n}"), format!("cut?n={n}"));
    }
    assert_eq!(recents.list().len(), 12);
    recents.note("Cut 25".into(), "cut?n=25&more".into());
    assert_eq!(recents.list()[0].to, "cut?n=25&more");
    assert_eq!(recents.list().iter().filter(|one| one.name == "Cut 25").count(), 1);
    assert!(recents.is_last("Cut 25", "cut?n=25&more"));
    // The same name on another page is another thing.
    recents.note("Cut 25".into(), "check?n=25".into());
    assert_eq!(recents.list().iter().filter(|one| one.name == "Cut 25").count(), 2);
}

#[test]
fn a_card_is_kept_moved_through_and_told_as_a_text() {
    let mut shop = Document::default();
    let id = shop.add_job();
    let other = shop.add_job();
    assert_ne!(id, other);
    shop.change_job(&id, |job| {
        job.name = "Base plate".into();
        job.next_time = "touch off after facing".into();
        for title in ["Face the top", "Slot", "Six M4"] {
            job.steps.push(Step { title: title.into(), ..Step::default() });
        }
        job.steps[1].done = true;
        job.move_step(2, -1);
        job.move_step(0, -1);
        job.move_step(2, 1);
        job.move_step(9, 1);
    });
    let job = shop.job(&id).unwrap();
    assert_eq!(job.done(), 1);
    assert_eq!(
        job.text(|step| (step.title == "Slot").then(|| "2800 rpm".into())),
        "Base plate\nNext time: touch off after facing\n[ ] 1. Face the top\n[ ] 2. Six M4\n[x] 3. Slot\n       2800 rpm"
    );
    assert_eq!(restore(&shop.to_text()).unwrap().jobs, shop.jobs);
    let before = shop.jobs.clone();
    let (place, job) = shop.remove_job(&id).unwrap();
    assert_eq!(shop.job(&id), None);
    shop.put_back_job(place, job);
    assert_eq!(shop.jobs, before);
    assert_eq!(Job::default().title(), "A part without a name");
}

#[test]
fn the_sample_shows_a_card_whose_steps_open() {
    let shop = sample();
    let job = shop.jobs.first().expect("a card");
    assert!(job.steps.iter().any(|step| is_ours(&step.to)));
    assert_eq!(job.done(), 0);
}

proptest! {
    #[test]
    fn moving_steps_loses_none(moves in prop::collection::vec((0..9_usize, any::<bool>()), 0..30)) {
        let step = |n: usize| Step { title: n.to_string(), ..Step::default() };
        let mut job = Job { steps: (0..6).map(step).collect(), ..Job::default() };
        for (place, later) in moves {
            job.move_step(place, if later { 1 } else { -1 });
        }
        let mut titles: Vec<_> = job.steps.iter().map(|step| step.title.clone()).collect();
        titles.sort();
        prop_assert_eq!(titles, ["0", "1", "2", "3", "4", "5"]);
    }
}
