//! The interface and the commands on loopback, for an ordinary browser.
//!
//! axum, because it stands on the same tokio that the shell brings anyway, and its makers keep it
//! up; file paths are made safe by tower-http's `ServeDir`, not by us.

use std::io;
use std::net::Ipv4Addr;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use axum::Router;
use axum::extract::{DefaultBodyLimit, State};
use axum::http::{StatusCode, header};
use axum::middleware;
use axum::response::{IntoResponse, Response};
use axum::routing::post;
use tokio::net::TcpListener;
use tower_http::services::ServeDir;

use crate::guard::{self, Guard};

/// The longest request taken, in bytes. Photos arrive in pieces well under it.
pub const REQUEST_LIMIT: usize = 8 * 1024 * 1024;

/// Why the server can't start or go on.
#[derive(Debug, thiserror::Error)]
pub enum ServeError {
    /// The interface was not built, or lies elsewhere.
    #[error("{} holds no index.html: run `npm run build:ui`, or name the folder with --ui", .0.display())]
    NoInterface(PathBuf),
    /// The port is taken, or the system refuses it.
    #[error("can't listen on 127.0.0.1:{port}: {source}")]
    Port {
        /// The port that was asked for.
        port: u16,
        /// What the system said.
        source: io::Error,
    },
    /// No token can be made.
    #[error("the system gives no random numbers: {0}")]
    NoRandomness(#[from] getrandom::Error),
    /// The server broke off.
    #[error("the server stopped: {0}")]
    Stopped(#[from] io::Error),
}

/// A server that holds its port but doesn't answer yet.
pub struct Server {
    listener: TcpListener,
    router: Router,
    guard: Guard,
}

impl Server {
    /// Takes `port` on 127.0.0.1 (0: any free one) for the interface in the folder `ui` and the
    /// commands of `app`.
    ///
    /// # Errors
    /// [`ServeError::NoInterface`], [`ServeError::Port`], [`ServeError::NoRandomness`].
    pub async fn bind(app: Arc<api::App>, port: u16, ui: &Path) -> Result<Self, ServeError> {
        if !ui.join("index.html").is_file() {
            return Err(ServeError::NoInterface(ui.to_path_buf()));
        }
        let port_error = |source| ServeError::Port { port, source };
        let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, port))
            .await
            .map_err(port_error)?;
        let guard = Guard::new(listener.local_addr().map_err(port_error)?.port())?;
        let router = Router::new()
            .route("/call", post(call))
            .with_state(app)
            .fallback_service(ServeDir::new(ui))
            .layer(DefaultBodyLimit::max(REQUEST_LIMIT))
            .layer(middleware::from_fn_with_state(guard.clone(), guard::check))
            .layer(middleware::map_response(guard::set_headers));
        Ok(Self {
            listener,
            router,
            guard,
        })
    }

    /// The address to open in a browser on this machine. It carries the token of this run, which
    /// the first visit swaps for a cookie.
    pub fn address(&self) -> String {
        self.guard.address()
    }

    /// Answers requests until the process is interrupted.
    ///
    /// # Errors
    /// [`ServeError::Stopped`].
    pub async fn run(self) -> Result<(), ServeError> {
        tokio::select! {
            stopped = axum::serve(self.listener, self.router) => Ok(stopped?),
            interrupted = tokio::signal::ctrl_c() => Ok(interrupted?),
        }
    }
}

async fn call(State(app): State<Arc<api::App>>, request: String) -> Response {
    // Calculations and the store block; they get a thread that may.
    match tokio::task::spawn_blocking(move || app.call(&request)).await {
        Ok(answer) => ([(header::CONTENT_TYPE, "application/json")], answer).into_response(),
        Err(lost) => (StatusCode::INTERNAL_SERVER_ERROR, lost.to_string()).into_response(),
    }
}
