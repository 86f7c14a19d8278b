//! The `headless` program: see [`headless`] and `headless --help`.

use std::io::{self, Write};
use std::path::PathBuf;
use std::process::ExitCode;
use std::sync::Arc;

use clap::{Parser, Subcommand};

/// Valvewright without a window.
#[derive(Parser)]
#[command(version)]
struct Line {
    #[command(subcommand)]
    action: Action,
}

#[derive(Subcommand)]
enum Action {
    /// Read one JSON request a line from standard input, write one answer a line.
    Call {
        /// The store's file; made if missing. Without it, only calculations can be called.
        #[arg(long)]
        store: Option<PathBuf>,
        /// A store that is made now gets no demo shop.
        #[arg(long)]
        empty: bool,
    },
    /// Print every command with the JSON Schema of its arguments and answer.
    Commands,
    /// Serve the interface and the commands on 127.0.0.1, and print the address to open.
    Serve {
        /// The store's file; made if missing.
        #[arg(long)]
        store: PathBuf,
        /// A store that is made now gets no demo shop.
        #[arg(long)]
        empty: bool,
        /// The port; 0 takes any free one.
        #[arg(long, default_value_t = 0)]
        port: u16,
        /// The built interface.
        #[arg(long, default_value = concat!(env!("CARGO_MANIFEST_DIR"), "/../../../ui/dist"))]
        ui: PathBuf,
    },
}

#[derive(Debug, thiserror::Error)]
enum Failure {
    #[error("{0}")]
    Stream(#[from] io::Error),
    #[error("{0}")]
    Serve(#[from] headless::serve::ServeError),
}

fn main() -> ExitCode {
    // Standard output carries answers; what the core logs goes beside it.
    tracing_subscriber::fmt().with_writer(io::stderr).init();
    match run(Line::parse().action) {
        Ok(()) => ExitCode::SUCCESS,
        // Whoever read our output has had enough of it; that is no failure.
        Err(Failure::Stream(error)) if error.kind() == io::ErrorKind::BrokenPipe => {
            ExitCode::SUCCESS
        }
        Err(failure) => {
            eprintln!("headless: {failure}");
            ExitCode::FAILURE
        }
    }
}

fn run(action: Action) -> Result<(), Failure> {
    match action {
        Action::Call { store, empty } => {
            let app = open(store, empty, true);
            headless::lines::answer(&app, io::stdin().lock(), io::stdout().lock())?;
        }
        Action::Commands => {
            writeln!(io::stdout().lock(), "{:#}", headless::commands())?;
        }
        Action::Serve {
            store,
            empty,
            port,
            ui,
        } => {
            let app = Arc::new(open(Some(store), empty, false));
            tokio::runtime::Runtime::new()?.block_on(serve(app, port, &ui))?;
        }
    }
    Ok(())
}

/// `paths`: whoever writes the requests may name any path that this program may. A page may not.
fn open(store: Option<PathBuf>, empty: bool, paths: bool) -> api::App {
    let mut options = store.map_or_else(api::Options::without_store, api::Options::for_user);
    options.demo_on_first_start &= !empty;
    options.paths = paths;
    api::App::start(options)
}

async fn serve(app: Arc<api::App>, port: u16, ui: &std::path::Path) -> Result<(), Failure> {
    let server = headless::serve::Server::bind(app, port, ui).await?;
    writeln!(
        io::stdout().lock(),
        "Valvewright is at {}",
        server.address()
    )?;
    server.run().await?;
    Ok(())
}
