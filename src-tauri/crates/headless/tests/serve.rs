//! What a browser, another site's page and another program on the machine get from the server.
//! Requests are written byte by byte onto a real connection, since clients tidy up the very
//! things that are tested here.

#![allow(clippy::unwrap_used)]

use std::fs;
use std::io::{Read, Write};
use std::net::{Ipv4Addr, TcpStream};
use std::sync::Arc;

use headless::serve::{REQUEST_LIMIT, ServeError, Server};

struct Running {
    port: u16,
    token: String,
    _files: tempfile::TempDir,
    _runtime: tokio::runtime::Runtime,
}

struct Answer {
    status: u16,
    head: String,
    body: String,
}

impl Answer {
    fn header(&self, name: &str) -> Option<&str> {
        self.head.lines().find_map(|line| {
            let (key, value) = line.split_once(':')?;
            key.eq_ignore_ascii_case(name).then(|| value.trim())
        })
    }
}

fn app(folder: &tempfile::TempDir) -> Arc<api::App> {
    let mut options = api::Options::for_user(folder.path().join("test.db"));
    options.demo_on_first_start = false;
    Arc::new(api::App::start(options))
}

fn start() -> Running {
    let files = tempfile::tempdir().unwrap();
    let ui = files.path().join("ui");
    fs::create_dir_all(ui.join("assets")).unwrap();
    fs::write(ui.join("index.html"), "<title>Valvewright</title>").unwrap();
    fs::write(ui.join("assets/app.js"), "// the interface").unwrap();
    fs::write(files.path().join("secret.txt"), "beside the folder").unwrap();

    let runtime = tokio::runtime::Runtime::new().unwrap();
    let server = runtime.block_on(Server::bind(app(&files), 0, &ui)).unwrap();
    let address = server.address();
    runtime.spawn(server.run());
    let (host, token) = address.split_once("/?token=").unwrap();
    let port = host
        .strip_prefix("http://127.0.0.1:")
        .unwrap()
        .parse()
        .unwrap();
    Running {
        port,
        token: token.to_owned(),
        _files: files,
        _runtime: runtime,
    }
}

impl Running {
    fn send(&self, start_line: &str, headers: &[(&str, &str)], body: &str) -> Answer {
        let mut text = format!("{start_line} HTTP/1.1\r\nConnection: close\r\n");
        for (name, value) in headers {
            text += &format!("{name}: {value}\r\n");
        }
        text += &format!("Content-Length: {}\r\n\r\n{body}", body.len());
        let mut stream = TcpStream::connect((Ipv4Addr::LOCALHOST, self.port)).unwrap();
        // A server that refuses early may close before it has read all of it.
        let _ = stream.write_all(text.as_bytes());
        let mut answer = Vec::new();
        let _ = stream.read_to_end(&mut answer);
        let answer = String::from_utf8_lossy(&answer).into_owned();
        let (head, body) = answer.split_once("\r\n\r\n").unwrap();
        let status = head.split(' ').nth(1).unwrap().parse().unwrap();
        Answer {
            status,
            head: head.to_owned(),
            body: body.to_owned(),
        }
    }

    fn host(&self) -> String {
        format!("127.0.0.1:{}", self.port)
    }

    fn origin(&self) -> String {
        format!("http://{}", self.host())
    }

    fn cookie(&self) -> String {
        format!("valvewright_{}={}", self.port, self.token)
    }

    fn get(&self, path: &str) -> Answer {
        let (host, cookie) = (self.host(), self.cookie());
        self.send(
            &format!("GET {path}"),
            &[("Host", &host), ("Cookie", &cookie)],
            "",
        )
    }
}

const REQUEST: &str = r#"{"command":"no_such_command","args":{}}"#;

#[test]
fn the_printed_address_swaps_its_token_for_a_cookie_that_pages_and_other_sites_cant_use() {
    let server = start();
    let first = server.send(
        &format!("GET /?token={}", server.token),
        &[("Host", &server.host())],
        "",
    );
    assert_eq!((first.status, first.header("Location")), (303, Some("/")));
    assert_eq!(
        first.header("Set-Cookie"),
        Some(format!("{}; HttpOnly; SameSite=Strict; Path=/", server.cookie()).as_str())
    );

    let page = server.get("/");
    assert_eq!(page.status, 200);
    assert_eq!(page.body, "<title>Valvewright</title>");
    assert_eq!(server.get("/assets/app.js").body, "// the interface");
}

#[test]
fn a_page_with_the_cookie_gets_commands_answered() {
    let server = start();
    let answer = server.send(
        "POST /call",
        &[
            ("Host", &server.host()),
            ("Origin", &server.origin()),
            ("Cookie", &server.cookie()),
            ("Content-Type", "application/json"),
        ],
        REQUEST,
    );
    assert_eq!(answer.status, 200);
    assert_eq!(answer.header("Content-Type"), Some("application/json"));
    let answer: serde_json::Value = serde_json::from_str(&answer.body).unwrap();
    assert!(answer["error"]["code"].is_string(), "{answer}");
}

#[test]
fn a_program_with_the_token_in_a_header_gets_commands_answered() {
    let server = start();
    let bearer = format!("Bearer {}", server.token);
    let answer = server.send(
        "POST /call",
        &[
            ("Host", &server.host()),
            ("Authorization", &bearer),
            ("Content-Type", "application/json; charset=utf-8"),
        ],
        REQUEST,
    );
    assert_eq!(answer.status, 200);
}

#[test]
fn without_the_token_there_is_nothing_to_be_had() {
    let server = start();
    let host = server.host();
    let wrong = "0".repeat(64);
    let wrong_cookie = format!("valvewright_{}={wrong}", server.port);
    let other_ports_cookie = format!("valvewright_{}={}", server.port ^ 1, server.token);
    let wrong_bearer = format!("Bearer {wrong}");
    for extra in [
        ("Accept", "*/*"),
        ("Cookie", &wrong_cookie),
        ("Cookie", &other_ports_cookie),
        ("Authorization", &wrong_bearer),
        ("Authorization", &server.token),
    ] {
        for start_line in [
            "GET /",
            "GET /index.html",
            "GET /assets/app.js",
            "POST /call",
        ] {
            let headers = [
                ("Host", host.as_str()),
                ("Content-Type", "application/json"),
                extra,
            ];
            let answer = server.send(start_line, &headers, REQUEST);
            assert_eq!(answer.status, 401, "{start_line} with {extra:?}");
            assert_eq!(answer.header("Set-Cookie"), None);
        }
    }
    for start_line in [
        format!("GET /?token={wrong}"),
        format!("GET /?token={}x", server.token),
        "GET /?token=".to_owned(),
        format!("GET /index.html?token={}", server.token),
        format!("POST /call?token={}", server.token),
    ] {
        let answer = server.send(&start_line, &[("Host", &host)], "");
        assert_eq!(answer.status, 401, "{start_line}");
    }
}

#[test]
fn a_name_that_was_made_to_point_here_is_refused_even_with_the_token() {
    let server = start();
    let port = server.port;
    for host in [
        format!("shop.example:{port}"),
        "127.0.0.1".to_owned(),
        format!("127.0.0.1:{}", port ^ 1),
        format!("127.0.0.1.example:{port}"),
        String::new(),
    ] {
        let headers = [("Host", host.as_str()), ("Cookie", &server.cookie())];
        assert_eq!(server.send("GET /", &headers, "").status, 421, "{host:?}");
    }
    let local = format!("localhost:{port}");
    let headers = [("Host", local.as_str()), ("Cookie", &server.cookie())];
    assert_eq!(server.send("GET /", &headers, "").status, 200);
}

#[test]
fn another_sites_page_is_refused_even_with_the_cookie() {
    let server = start();
    let (host, cookie) = (server.host(), server.cookie());
    let localhost = format!("http://localhost:{}", server.port);
    let https = format!("https://{host}");
    let other_port = format!("http://127.0.0.1:{}", server.port ^ 1);
    for origin in [
        "https://shop.example",
        "null",
        &other_port,
        &https,
        &localhost,
    ] {
        for start_line in ["GET /", "POST /call", "OPTIONS /call"] {
            let answer = server.send(
                start_line,
                &[
                    ("Host", &host),
                    ("Cookie", &cookie),
                    ("Origin", origin),
                    ("Content-Type", "application/json"),
                ],
                REQUEST,
            );
            assert_eq!(answer.status, 403, "{start_line} from {origin}");
        }
    }
    let silent = server.send(
        "POST /call",
        &[
            ("Host", &host),
            ("Cookie", &cookie),
            ("Content-Type", "application/json"),
        ],
        REQUEST,
    );
    assert_eq!(silent.status, 403, "a cookie without an origin");
}

#[test]
fn a_form_can_call_nothing() {
    let server = start();
    for kind in [
        "text/plain",
        "application/x-www-form-urlencoded",
        "multipart/form-data",
    ] {
        let answer = server.send(
            "POST /call",
            &[
                ("Host", &server.host()),
                ("Origin", &server.origin()),
                ("Cookie", &server.cookie()),
                ("Content-Type", kind),
            ],
            REQUEST,
        );
        assert_eq!(answer.status, 415, "{kind}");
    }
}

#[test]
fn no_path_leads_out_of_the_interfaces_folder() {
    let server = start();
    for path in [
        "/../secret.txt",
        "/assets/../../secret.txt",
        "/%2e%2e/secret.txt",
        "/..%2fsecret.txt",
        "/%2e%2e%2fsecret.txt",
        "/..%5csecret.txt",
        "/assets/..%2f..%2fsecret.txt",
        "//etc/passwd",
        "/%2fetc%2fpasswd",
        "/etc/passwd",
        "/index.html%00.txt",
    ] {
        let answer = server.get(path);
        assert!(
            matches!(answer.status, 400 | 404),
            "{path}: {}",
            answer.status
        );
        assert!(!answer.body.contains("beside the folder"), "{path}");
    }
}

#[test]
fn every_answer_carries_the_policy_and_none_opens_the_server_to_other_origins() {
    let server = start();
    let refused = server.send("GET /", &[("Host", "shop.example")], "");
    for answer in [server.get("/"), server.get("/missing"), refused] {
        let policy = answer.header("Content-Security-Policy").unwrap();
        assert!(
            policy.starts_with("default-src 'none'; script-src 'self';"),
            "{policy}"
        );
        assert_eq!(answer.header("X-Content-Type-Options"), Some("nosniff"));
        assert_eq!(answer.header("Referrer-Policy"), Some("no-referrer"));
        assert_eq!(answer.header("Cache-Control"), Some("no-store"));
        assert!(
            !answer.head.to_lowercase().contains("access-control-"),
            "{}",
            answer.head
        );
    }
}

#[test]
fn the_browser_gets_the_windows_policy_but_for_where_calls_go() {
    let config = include_str!("../../../tauri.conf.json");
    let config: serde_json::Value = serde_json::from_str(config).unwrap();
    let mut window = config["app"]["security"]["csp"]
        .as_object()
        .unwrap()
        .clone();
    assert_eq!(window["connect-src"], "ipc: http://ipc.localhost");
    window.insert("connect-src".into(), "'self'".into());

    let answer = start().get("/");
    let served: serde_json::Map<_, _> = answer
        .header("Content-Security-Policy")
        .unwrap()
        .split("; ")
        .map(|directive| directive.split_once(' ').unwrap())
        .map(|(name, value)| (name.to_owned(), value.into()))
        .collect();
    assert_eq!(served, window);
}

#[test]
fn a_request_over_the_limit_is_turned_away() {
    let server = start();
    let answer = server.send(
        "POST /call",
        &[
            ("Host", &server.host()),
            ("Origin", &server.origin()),
            ("Cookie", &server.cookie()),
            ("Content-Type", "application/json"),
        ],
        &" ".repeat(REQUEST_LIMIT + 1),
    );
    assert_eq!(answer.status, 413);
}

#[test]
fn two_servers_have_two_tokens() {
    assert_ne!(start().token, start().token);
}

#[test]
fn a_folder_without_the_interface_is_said_so_at_once() {
    let empty = tempfile::tempdir().unwrap();
    let runtime = tokio::runtime::Runtime::new().unwrap();
    let refused = runtime.block_on(Server::bind(app(&empty), 0, empty.path()));
    assert!(matches!(refused, Err(ServeError::NoInterface(_))));
}

#[test]
fn a_taken_port_is_said_so_at_once() {
    let running = start();
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("index.html"), "").unwrap();
    let runtime = tokio::runtime::Runtime::new().unwrap();
    let refused = runtime.block_on(Server::bind(app(&folder), running.port, folder.path()));
    assert!(matches!(refused, Err(ServeError::Port { port, .. }) if port == running.port));
}
