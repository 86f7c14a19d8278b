//! Who may talk to the loopback server. Any page that the person has open can send requests to
//! 127.0.0.1, and any program on the machine can, so three things are checked: the `Host` is ours
//! (a name that was made to point at 127.0.0.1 is not), the `Origin`, if the browser states one,
//! is our own, and the token of this run is there.

use axum::extract::{Request, State};
use axum::http::{HeaderMap, HeaderValue, Method, StatusCode, header};
use axum::middleware::Next;
use axum::response::{IntoResponse, Redirect, Response};
use subtle::ConstantTimeEq;

/// The window's policy (`tauri.conf.json`), but the page may call its own server instead of the
/// shell.
pub(crate) const CONTENT_SECURITY_POLICY: &str = "default-src 'none'; script-src 'self'; \
     style-src 'self'; img-src 'self' data: blob:; font-src 'self'; connect-src 'self'; \
     form-action 'none'; base-uri 'none'; frame-ancestors 'none'";

/// What a request is checked against.
#[derive(Clone)]
pub(crate) struct Guard {
    port: u16,
    token: String,
}

impl Guard {
    /// A guard for the server on `port`, with a token of 256 random bits.
    ///
    /// # Errors
    /// The system has no random numbers.
    pub(crate) fn new(port: u16) -> Result<Self, getrandom::Error> {
        let mut bytes = [0_u8; 32];
        getrandom::fill(&mut bytes)?;
        let token = bytes.iter().map(|byte| format!("{byte:02x}")).collect();
        Ok(Self { port, token })
    }

    /// The address to open, with the token in it.
    pub(crate) fn address(&self) -> String {
        format!("http://127.0.0.1:{}/?token={}", self.port, self.token)
    }

    /// Browsers send a cookie to every port of a host, so its name carries the port: two servers
    /// side by side don't take each other's.
    fn cookie_name(&self) -> String {
        format!("valvewright_{}", self.port)
    }

    fn is_token(&self, offered: &str) -> bool {
        offered.as_bytes().ct_eq(self.token.as_bytes()).into()
    }

    fn host_is_ours(&self, headers: &HeaderMap) -> bool {
        let host = text(headers, header::HOST);
        [
            format!("127.0.0.1:{}", self.port),
            format!("localhost:{}", self.port),
        ]
        .iter()
        .any(|ours| host == Some(ours))
    }

    fn origin_is_ours(&self, headers: &HeaderMap) -> bool {
        let (Some(origin), Some(host)) =
            (text(headers, header::ORIGIN), text(headers, header::HOST))
        else {
            return false;
        };
        origin.strip_prefix("http://") == Some(host)
    }

    fn has_cookie(&self, headers: &HeaderMap) -> bool {
        let name = self.cookie_name();
        headers
            .get_all(header::COOKIE)
            .iter()
            .filter_map(|value| value.to_str().ok())
            .flat_map(|value| value.split(';'))
            .filter_map(|pair| pair.trim().split_once('='))
            .any(|(key, value)| key == name && self.is_token(value))
    }

    fn has_bearer(&self, headers: &HeaderMap) -> bool {
        text(headers, header::AUTHORIZATION)
            .and_then(|value| value.strip_prefix("Bearer "))
            .is_some_and(|token| self.is_token(token))
    }

    fn enter(&self, request: &Request) -> Option<Response> {
        let first_visit = request.method() == Method::GET && request.uri().path() == "/";
        let offered = request
            .uri()
            .query()?
            .split('&')
            .find_map(|pair| pair.strip_prefix("token="))
            .filter(|_| first_visit)?;
        if !self.is_token(offered) {
            return None;
        }
        let cookie = format!(
            "{}={}; HttpOnly; SameSite=Strict; Path=/",
            self.cookie_name(),
            self.token
        );
        Some(([(header::SET_COOKIE, cookie)], Redirect::to("/")).into_response())
    }
}

fn text(headers: &HeaderMap, name: header::HeaderName) -> Option<&str> {
    headers.get(name)?.to_str().ok()
}

fn refuse(status: StatusCode, why: &'static str) -> Response {
    (status, why).into_response()
}

/// Lets a request through, or answers it with the reason why not:
/// 421 another host, 403 another origin, 401 no token, 415 a body that isn't JSON.
pub(crate) async fn check(State(guard): State<Guard>, request: Request, next: Next) -> Response {
    let headers = request.headers();
    if !guard.host_is_ours(headers) {
        return refuse(
            StatusCode::MISDIRECTED_REQUEST,
            "This server answers to 127.0.0.1 only.\n",
        );
    }
    if headers.contains_key(header::ORIGIN) && !guard.origin_is_ours(headers) {
        return refuse(
            StatusCode::FORBIDDEN,
            "Another site's page may not call this server.\n",
        );
    }
    if let Some(entered) = guard.enter(&request) {
        return entered;
    }
    let by_cookie = guard.has_cookie(headers);
    if !by_cookie && !guard.has_bearer(headers) {
        return refuse(
            StatusCode::UNAUTHORIZED,
            "Open the address that the program printed: it carries the token of this run.\n",
        );
    }
    if request.method() == Method::POST {
        // A browser states the origin of each POST; one with our cookie and without it is none
        // of ours.
        if by_cookie && !guard.origin_is_ours(headers) {
            return refuse(
                StatusCode::FORBIDDEN,
                "The request doesn't say where it is from.\n",
            );
        }
        let json = text(headers, header::CONTENT_TYPE)
            .and_then(|value| value.split(';').next())
            .is_some_and(|kind| kind.trim() == "application/json");
        if !json {
            return refuse(
                StatusCode::UNSUPPORTED_MEDIA_TYPE,
                "Send application/json.\n",
            );
        }
    }
    next.run(request).await
}

/// Sets what every answer carries, refusals included. There is no CORS header among them, so no
/// other site's page can read anything.
pub(crate) async fn set_headers(mut response: Response) -> Response {
    let headers = response.headers_mut();
    for (name, value) in [
        (header::CONTENT_SECURITY_POLICY, CONTENT_SECURITY_POLICY),
        (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
        // The token stands in the first address.
        (header::REFERRER_POLICY, "no-referrer"),
        (header::CACHE_CONTROL, "no-store"),
        (
            header::HeaderName::from_static("cross-origin-opener-policy"),
            "same-origin",
        ),
        (
            header::HeaderName::from_static("cross-origin-resource-policy"),
            "same-origin",
        ),
    ] {
        headers.insert(name, HeaderValue::from_static(value));
    }
    response
}
