//! Embeds the interface and declares the shell's commands, so that no other can be called.

use std::error::Error;
use std::fs;
use std::path::Path;

const INTERFACE: &str = "../ui/dist";

fn main() -> Result<(), Box<dyn Error>> {
    // `cargo check` must work before the interface was ever built; the program that comes out
    // then has nothing to show, so say so.
    if !Path::new(INTERFACE).join("index.html").exists() {
        fs::create_dir_all(INTERFACE)?;
        println!(
            "cargo:warning=ui/dist is empty: run `npm run build:ui`, or start with `npm start`"
        );
    }
    println!("cargo:rerun-if-changed={INTERFACE}");

    let manifest = tauri_build::AppManifest::new().commands(&[
        "call",
        "save_file",
        "pick_file",
        "watch_opened",
    ]);
    tauri_build::try_build(tauri_build::Attributes::new().app_manifest(manifest))?;
    Ok(())
}
