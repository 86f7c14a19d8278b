//! Builds the demo shop's bundle from its sources: `build-demo [--check] FOLDER FILE`.
//!
//! With `--check` it writes nothing and fails if FILE isn't what the sources give.

use std::path::Path;
use std::process::ExitCode;

fn main() -> ExitCode {
    let mut args: Vec<String> = std::env::args().skip(1).collect();
    let check = args.first().is_some_and(|arg| arg == "--check");
    if check {
        args.remove(0);
    }
    let [folder, file] = args.as_slice() else {
        eprintln!("usage: build-demo [--check] FOLDER FILE");
        return ExitCode::from(2);
    };
    let built = match testkit::demo::build(Path::new(folder)) {
        Ok(built) => built,
        Err(error) => {
            eprintln!("build-demo: {error}");
            return ExitCode::FAILURE;
        }
    };
    if check {
        if std::fs::read(file).is_ok_and(|kept| kept == built) {
            println!("{file} is what its sources give ({} bytes).", built.len());
            return ExitCode::SUCCESS;
        }
        eprintln!("build-demo: {file} is not what its sources give; run npm run demo");
        return ExitCode::FAILURE;
    }
    match std::fs::write(file, &built) {
        Ok(()) => {
            println!("Wrote {file}: {} bytes.", built.len());
            ExitCode::SUCCESS
        }
        Err(error) => {
            eprintln!("build-demo: {file}: {error}");
            ExitCode::FAILURE
        }
    }
}
