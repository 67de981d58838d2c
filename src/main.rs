//! Mounts the app, nothing else.

fn main() {
    handwheel::browser::page::report_breaking();
    handwheel::browser::page::show_presses();
    leptos::mount::mount_to_body(handwheel::ui::Handwheel);
}
