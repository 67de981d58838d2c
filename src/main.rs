//! Mounts the app, nothing else.

fn main() {
    handwheel::browser::page::report_breaking();
    leptos::mount::mount_to_body(handwheel::ui::Handwheel);
}
