//! What a person owns: the first start, machines and cutters, what is kept, and what can be undone.

use crate::page::Page;
use crate::runner::tests;
use serde_json::json;

tests![
    four_questions_lead_to_the_board,
    what_is_missing_is_asked_for_at_its_field,
    a_first_start_goes_on_where_it_was_left,
    back_leads_through_the_questions,
    the_sample_shop_can_be_left_and_brought_back,
    what_is_on_the_mill_changes_in_two_taps,
    every_entry_is_kept_through_a_reload,
    a_removed_cutter_comes_back,
    a_favorite_is_renamed_and_removed,
    units_and_colours_are_kept,
    what_cannot_be_read_is_told_and_kept,
    a_full_storage_is_told,
    another_window_is_followed,
    two_windows_neither_lose_nor_overwrite,
    what_is_exported_and_wiped_is_imported_as_it_was,
    a_backup_goes_to_the_share_sheet,
    a_mill_is_handed_over_by_a_code,
    a_storage_that_is_switched_off_is_told_with_the_way_out,
    a_storage_without_any_room_is_told_with_the_way_out,
    a_backup_of_a_clock_that_was_set_back_is_not_trusted,
    the_published_values_are_checked_on_the_phone,
];

/// Types a number on the keyboard, where the number pad opens as well.
async fn enter(page: &Page, name: &str, text: &str) {
    page.write(name, text).await;
    page.tap("done").await;
}

/// A second tap on one button within 400 ms is the first one bouncing.
async fn tap_again(page: &Page, name: &str) {
    tokio::time::sleep(std::time::Duration::from_millis(450)).await;
    page.tap(name).await;
}

async fn answer_four_questions(page: &Page) {
    page.open("/").await;
    page.tap("Your mill in four questions").await;
    page.write("What you call it", "Garage mill").await;
    page.tap("Next").await;
    enter(page, "Speeds, slowest first, a space between", "70 115 190 310").await;
    page.tap("Next").await;
    page.tap("0.1 in").await;
    page.tap("Next").await;
    page.tap("I don't know").await;
    page.sees("Garage mill").await;
}

async fn open_sample(page: &Page) {
    page.open("/").await;
    page.tap("Sample shop").await;
    page.sees("This is the sample shop").await;
}

/// Until what was changed is in the storage.
pub async fn saved(page: &Page, what: &str) {
    let script = format!(
        "return (localStorage.getItem(localStorage.getItem('handwheel/current')) || '')
            .includes({})",
        json!(what)
    );
    page.waits_for(&format!("{what} to be saved"), &script).await;
}

async fn four_questions_lead_to_the_board(page: Page) {
    answer_four_questions(&page).await;
    assert_eq!(page.heading().await, "On the mill");
    page.sees("70 to 310 rpm").await;
    page.sees("Choose the stock").await;
    page.sees("Choose a cutter").await;
    page.passes_axe().await;
    page.shot("board").await;
}

async fn what_is_missing_is_asked_for_at_its_field(page: Page) {
    page.open("/").await;
    page.tap("Your mill in four questions").await;
    page.tap("Next").await;
    page.sees("The machine has no name.").await;
    page.write("What you call it", "Mill").await;
    tap_again(&page, "Next").await;
    enter(&page, "Speeds, slowest first, a space between", "310 190").await;
    tap_again(&page, "Next").await;
    page.sees("190 stands after 310, but is slower.").await;
    assert_eq!(page.place().await, "/?question=2");
    enter(&page, "Speeds, slowest first, a space between", "190 310").await;
    tap_again(&page, "Next").await;
    enter(&page, "One turn of the handwheel moves the table", "2").await;
    tap_again(&page, "Next").await;
    page.sees("No handwheel moves a table more than an inch a turn.").await;
    page.passes_axe().await;
}

async fn a_first_start_goes_on_where_it_was_left(page: Page) {
    page.open("/").await;
    page.tap("Your mill in four questions").await;
    page.write("What you call it", "Half a mill").await;
    page.tap("Next").await;
    enter(&page, "Speeds, slowest first, a space between", "70 115").await;
    saved(&page, "70 115").await;
    page.open("/").await;
    page.tap("Go on with question 2 of 4").await;
    assert_eq!(page.value_of("Speeds, slowest first, a space between").await, "70 115");
    page.back().await;
    page.sees("Go on with question 2 of 4").await;
}

async fn back_leads_through_the_questions(page: Page) {
    page.open("/").await;
    page.tap("Your mill in four questions").await;
    page.write("What you call it", "Mill").await;
    page.tap("Next").await;
    page.sees("Question 2 of 4").await;
    page.tap("Back").await;
    page.sees("Question 1 of 4").await;
    assert_eq!(page.value_of("What you call it").await, "Mill");
}

async fn the_sample_shop_can_be_left_and_brought_back(page: Page) {
    open_sample(&page).await;
    page.sees("3 mm end mill, 2 flutes").await;
    page.tap("Begin with my own mill").await;
    page.sees("Your mill in four questions").await;
    page.tap("Undo").await;
    page.sees("This is the sample shop").await;
}

async fn what_is_on_the_mill_changes_in_two_taps(page: Page) {
    open_sample(&page).await;
    page.count_from_here();
    page.tap("Bench mill").await;
    page.tap("Knee mill").await;
    page.sees("70 to 2560 rpm").await;
    assert_eq!(page.taps(), 2);
    assert_eq!(page.place().await, "/");
}

async fn every_entry_is_kept_through_a_reload(page: Page) {
    open_sample(&page).await;
    page.open("/shop?machine=bench_mill").await;
    enter(&page, "Power at the cutter", "1/2 hp").await;
    page.write("Counter-clockwise when it says", "BACK").await;
    saved(&page, "BACK").await;
    page.reload().await;
    assert_eq!(page.value_of("Power at the cutter").await, "1/2 hp");
    assert_eq!(page.value_of("Counter-clockwise when it says").await, "BACK");
    page.passes_axe().await;
}

async fn a_removed_cutter_comes_back(page: Page) {
    open_sample(&page).await;
    page.open("/shop").await;
    page.tap("No. 7 drill").await;
    page.tap("Remove this cutter").await;
    page.sees("No. 7 drill goes out of the drawer.").await;
    page.tap("Keep it").await;
    page.tap("Remove this cutter").await;
    page.tap("Remove it").await;
    page.sees("No. 7 drill is removed.").await;
    page.tap("Undo").await;
    page.sees_no("is removed").await;
    page.sees("No. 7 drill").await;
}

async fn a_favorite_is_renamed_and_removed(page: Page) {
    open_sample(&page).await;
    page.open("/favorites").await;
    page.tap("Change “Focuser slot, 3 mm”").await;
    page.write("What you call it", "Telescope slot").await;
    page.sees("Change “Telescope slot”").await;
    saved(&page, "Telescope slot").await;
    page.tap("Remove it").await;
    page.sees("that you save is kept here by name").await;
    page.tap("Undo").await;
    page.sees("Telescope slot").await;
}

async fn units_and_colours_are_kept(page: Page) {
    open_sample(&page).await;
    page.open("/shop?settings").await;
    page.tap("Millimetres").await;
    page.tap("Light").await;
    page.tap("Larger targets for gloves").await;
    page.sees("This phone needs no touch while cutting.").await;
    saved(&page, "\"gloves\":true").await;
    page.open("/").await;
    let marks = page
        .js("const root = document.documentElement.dataset; return [root.theme, root.gloves]")
        .await;
    assert_eq!(marks, json!(["light", "on"]));
    page.passes_axe().await;
}

async fn what_cannot_be_read_is_told_and_kept(page: Page) {
    page.open("/").await;
    page.js("localStorage.setItem('handwheel/document/a', 'half a docu')").await;
    page.reload().await;
    page.sees("It is kept as it was found; nothing of it is lost.").await;
    page.sees("Your mill in four questions").await;
    let kept = page
        .js("return Object.keys(localStorage).filter(key => key.startsWith('handwheel/rescued/'))
                .map(key => localStorage.getItem(key))")
        .await;
    assert_eq!(kept, json!(["half a docu"]));
    page.tap("Later").await;
    page.sees_no("It is kept as it was found").await;
    page.tap("Sample shop").await;
    page.open("/shop?settings").await;
    page.sees("What could not be read on an earlier day is still kept.").await;
    page.tap("Let it go").await;
    page.tap("Remove it").await;
    page.sees_no("is still kept").await;
}

async fn a_full_storage_is_told(page: Page) {
    open_sample(&page).await;
    saved(&page, "Bench mill").await;
    page.js("for (let size = 1 << 22; size > 10; size >>= 1)
            for (let n = 0; ; n++)
                try { localStorage.setItem(`filler/${size}/${n}`, 'x'.repeat(size)) }
                catch { break }")
        .await;
    page.open("/shop?machine=bench_mill").await;
    page.write("What you call it", "A mill with a name that needs a good deal more room").await;
    page.sees("Not saved.").await;
    page.js("for (const key of Object.keys(localStorage))
            if (key.startsWith('filler/')) localStorage.removeItem(key)")
        .await;
    page.write("What you call it", "Bench mill again").await;
    page.sees_no("Not saved.").await;
    saved(&page, "Bench mill again").await;
}

async fn another_window_is_followed(page: Page) {
    open_sample(&page).await;
    saved(&page, "Bench mill").await;
    page.js("const frame = document.body.appendChild(document.createElement('iframe'));
        const there = frame.contentWindow.localStorage;
        const [used, spare] = there.getItem('handwheel/current').endsWith('a')
            ? ['handwheel/document/a', 'handwheel/document/b']
            : ['handwheel/document/b', 'handwheel/document/a'];
        there.setItem(spare, there.getItem(used).replaceAll('Bench mill', 'Mill of elsewhere'));
        there.setItem('handwheel/current', spare);")
        .await;
    page.sees("Mill of elsewhere").await;
}

/// The same app in a frame of the page: another window to the storage, with a document of its own.
/// Both write before either has been told of the other.
async fn two_windows_neither_lose_nor_overwrite(page: Page) {
    open_sample(&page).await;
    saved(&page, "Bench mill").await;
    page.js("document.body.append(Object.assign(document.createElement('iframe'), { src: location.href, id: 'other' }))")
        .await;
    let other = "document.getElementById('other').contentDocument";
    page.waits_for("the other window", &format!("return !!{other}?.querySelector('h1')")).await;
    page.js(&format!(
        "const links = [...{other}.querySelectorAll('a')];
         links.find(a => a.getAttribute('href').startsWith('shop')).click();"
    ))
    .await;
    page.waits_for("its shop", &format!("return {other}.querySelector('h1').innerText == 'Shop'"))
        .await;
    let add = |document: &str, what: &str| {
        format!(
            "[...{document}.querySelectorAll('button')].find(b => b.innerText == '{what}')
                 .dispatchEvent(new MouseEvent('click', {{ bubbles: true, cancelable: true }}));"
        )
    };
    page.js("[...document.querySelectorAll('a')].find(a => a.getAttribute('href').startsWith('shop')).click()")
        .await;
    page.sees("Add a mill").await;
    tokio::time::sleep(std::time::Duration::from_millis(400)).await;
    page.js(&format!("{}{}", add("document", "Add a mill"), add(other, "Add a cutter"))).await;
    let both = "const shop = JSON.parse(localStorage[localStorage['handwheel/current']]);
        return shop.machines.length == 3 && shop.cutters.length == 11;";
    page.waits_for("a mill of the one and a cutter of the other", both).await;
    page.js("document.getElementById('other').remove()").await;
    page.open("/shop").await;
    page.waits_for("still both", both).await;
}

/// The saved document without what is said of its saves and backups.
const SAVED: &str = "const shop = JSON.parse(localStorage[localStorage['handwheel/current']]);
    delete shop.trace; delete shop.marks; delete shop.backup;
    return JSON.stringify(shop);";

async fn what_is_exported_and_wiped_is_imported_as_it_was(page: Page) {
    open_sample(&page).await;
    page.open("/shop?machine=knee_mill").await;
    page.write("What you call it", "Knee mill by the window").await;
    saved(&page, "by the window").await;
    page.open("/shop?settings").await;
    page.js("const make = URL.createObjectURL.bind(URL);
        URL.createObjectURL = blob => { blob.text().then(text => window.exported = text); return make(blob); }")
        .await;
    page.tap("Make a backup file").await;
    page.waits_for("the file", "return !!window.exported").await;
    let file = page.js("return window.exported").await;
    let path = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).join("backup.json");
    std::fs::write(&path, file.as_str().expect("a text")).expect("a backup file");
    page.waits_for(
        "its note",
        "return localStorage[localStorage['handwheel/current']].includes('\"since\":\"2')",
    )
    .await;
    let before = page.js(SAVED).await;

    page.tap("Remove everything").await;
    tap_again(&page, "Remove everything").await;
    page.sees("Everything is removed.").await;
    page.waits_for(
        "nothing",
        "return !localStorage[localStorage['handwheel/current']].includes('by the window')",
    )
    .await;
    choose_file(&page, &path).await;
    page.sees("It holds 2 mills, 10 cutters, 1 favorite").await;
    page.sees("New here: Bench mill; Knee mill by the window;").await;
    page.passes_axe().await;
    page.shot("import").await;
    assert_ne!(page.js(SAVED).await, before, "nothing is written before it was looked at");
    page.tap("Put it in place of mine").await;
    saved(&page, "by the window").await;
    assert_eq!(page.js(SAVED).await, before);
    page.sees("What was here before is removed.").await;
}

async fn choose_file(page: &Page, path: &std::path::Path) {
    let root = page.cdp("DOM.getDocument", json!({})).await;
    let root = json!({ "nodeId": root["root"]["nodeId"], "selector": "input[type=file]" });
    let field = page.cdp("DOM.querySelector", root).await;
    page.cdp("DOM.setFileInputFiles", json!({ "nodeId": field["nodeId"], "files": [path] })).await;
}

async fn a_backup_goes_to_the_share_sheet(page: Page) {
    let sheet = "navigator.canShare = () => true;
        navigator.share = what => { window.shared = what.files[0]; return Promise.resolve(); }";
    page.cdp("Page.addScriptToEvaluateOnNewDocument", json!({ "source": sheet })).await;
    open_sample(&page).await;
    page.open("/shop?settings").await;
    page.tap("Share a backup file").await;
    page.waits_for("the file", "return !!window.shared").await;
    let file =
        page.js("return window.shared.text().then(text => [window.shared.name, text])").await;
    assert!(file[0].as_str().expect("a name").starts_with("handwheel-20"));
    assert!(file[1].as_str().expect("a text").contains("Knee mill"));
}

async fn a_mill_is_handed_over_by_a_code(page: Page) {
    open_sample(&page).await;
    page.open("/shop?machine=knee_mill").await;
    page.tap("Hand over to another phone").await;
    page.sees("Point the camera of the other phone at it").await;
    page.waits_for("the picture", "return !!document.querySelector('.squares path')").await;
    page.passes_axe().await;
    let code = page.js("return document.querySelector('.code').innerText").await;
    let code = code.as_str().expect("a code").to_owned();
    page.open("/shop?settings").await;
    page.tap("Remove everything").await;
    tap_again(&page, "Remove everything").await;
    page.sees("Everything is removed.").await;

    // As another phone's camera opens it.
    page.open(&format!("/take#{code}")).await;
    page.sees("New here: Knee mill.").await;
    page.passes_axe().await;
    page.tap("Add what is new").await;
    page.sees("What came in is added.").await;
    page.sees("70 to 2560 rpm").await;
    assert_eq!(page.place().await, "/shop");
    page.tap("Undo").await;
    page.sees_no("70 to 2560 rpm").await;

    page.open("/take").await;
    page.write("The code", &code[..code.len() - 9]).await;
    page.sees("This is no code of a Handwheel, or not all of one.").await;
    page.passes_axe().await;
    page.write("The code", &code.to_lowercase()).await;
    page.sees("New here: Knee mill.").await;
}

async fn a_storage_that_is_switched_off_is_told_with_the_way_out(page: Page) {
    let off = "Object.defineProperty(window, 'localStorage', {
        get() { throw new DOMException('Access is denied for this document.', 'SecurityError') } })";
    page.cdp("Page.addScriptToEvaluateOnNewDocument", json!({ "source": off })).await;
    page.open("/").await;
    page.sees("Not saved. This browser lets the app keep nothing (Access is denied").await;
    page.sees("Keep a backup file.").await;
    page.tap("Sample shop").await;
    page.sees("This is the sample shop").await;
    page.sees("Not saved.").await;
    page.passes_axe().await;
    page.tap("Backup file").await;
}

async fn a_storage_without_any_room_is_told_with_the_way_out(page: Page) {
    let full = "Storage.prototype.setItem = () => {
        throw new DOMException('The quota has been exceeded.', 'QuotaExceededError') }";
    page.cdp("Page.addScriptToEvaluateOnNewDocument", json!({ "source": full })).await;
    page.open("/").await;
    page.tap("Sample shop").await;
    page.sees("Not saved. The browser keeps nothing more for this app (The quota").await;
    page.sees("Keep a backup file.").await;
    page.sees("3 mm end mill, 2 flutes").await;
}

async fn a_backup_of_a_clock_that_was_set_back_is_not_trusted(page: Page) {
    open_sample(&page).await;
    saved(&page, "Bench mill").await;
    page.js("const key = localStorage['handwheel/current'];
        const shop = JSON.parse(localStorage[key]);
        Object.assign(shop, { sample: false, backup: { since: '2099-01-01T00:00:00Z', changes: 1 } });
        localStorage[key] = JSON.stringify(shop);")
        .await;
    page.reload().await;
    page.sees("1 change since the last backup file.").await;
}

async fn the_published_values_are_checked_on_the_phone(page: Page) {
    page.open("/about").await;
    page.tap("Check now").await;
    page.sees("values hold").await;
    let text = page.text().await;
    let line = text.lines().find(|line| line.contains("values hold")).expect("just seen");
    let numbers: Vec<u32> = line.split(' ').filter_map(|word| word.parse().ok()).collect();
    assert!(numbers[0] == numbers[1] && numbers[1] > 200, "{line}");
    page.passes_axe().await;
}
