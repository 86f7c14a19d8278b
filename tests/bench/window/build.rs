//! Embeds the page.

fn main() {
    tauri_build::build();
}
