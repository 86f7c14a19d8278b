//! A window with one page, by Tauri's own defaults.

fn main() {
    if let Err(error) = tauri::Builder::default().run(tauri::generate_context!()) {
        eprintln!("the bare window can't start: {error}");
        std::process::exit(1);
    }
}
