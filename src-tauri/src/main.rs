//! The desktop program. Everything it does is in the library, which phones load by themselves.

#![cfg_attr(not(debug_assertions), windows_subsystem = "windows")]

fn main() {
    valvewright_lib::run();
}
