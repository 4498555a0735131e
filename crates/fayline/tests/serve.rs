//! The workspace seen by those who mean no good, and by a process that ends at any instant.
//!
//! "Hostile tests: traversal, oversized and slow bodies, missing or stale tokens, foreign origin, DNS-rebinding host
//! header. Killing the server during saves a few hundred times leaves a whole file each time."

use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

use tempfile::TempDir;

const JOB: &str = include_str!("../../../examples/coupon.toml");

struct Server {
    child: Child,
    port: u16,
}

impl Server {
    fn start(folder: &Path) -> Self {
        Self::listening(folder, "127.0.0.1").0
    }

    /// A server and the second line that it prints.
    fn listening(folder: &Path, address: &str) -> (Self, String) {
        let mut child = Command::new(env!("CARGO_BIN_EXE_fayline"))
            .args(["serve", "--port", "0", "--listen", address])
            .arg(folder)
            .stdout(Stdio::piped())
            .spawn()
            .expect("the program serves");
        let mut out = BufReader::new(child.stdout.take().expect("its words"));
        let (mut first, mut second) = (String::new(), String::new());
        out.read_line(&mut first).expect("an address");
        out.read_line(&mut second).expect("a second line");
        let port =
            first.trim_end().trim_end_matches('/').rsplit(':').next().and_then(|port| port.parse().ok());
        (Self { child, port: port.unwrap_or_else(|| panic!("{first}")) }, second)
    }

    fn connect(&self) -> TcpStream {
        let stream = TcpStream::connect(("127.0.0.1", self.port)).expect("it listens");
        stream.set_read_timeout(Some(Duration::from_secs(30))).expect("a limit");
        stream
    }

    /// Sends a request as it is written, and gives the whole answer.
    fn send(&self, request: &[u8]) -> String {
        let mut stream = self.connect();
        stream.write_all(request).expect("it takes the request");
        let mut answer = Vec::new();
        // A server that ends the connection hard after its answer has answered all the same.
        let _ = stream.read_to_end(&mut answer);
        String::from_utf8_lossy(&answer).into_owned()
    }

    fn get(&self, path: &str, headers: &str) -> String {
        let host = format!("127.0.0.1:{}", self.port);
        self.send(
            format!("GET {path} HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\n{headers}\r\n").as_bytes(),
        )
    }

    fn post(&self, path: &str, headers: &str, body: &str) -> String {
        let host = format!("127.0.0.1:{}", self.port);
        let length = body.len();
        self.send(
            format!("POST {path} HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\nContent-Type: application/x-www-form-urlencoded\r\nContent-Length: {length}\r\n{headers}\r\n{body}").as_bytes(),
        )
    }

    /// A session: the header with its cookie, and its token.
    fn enter(&self) -> (String, String) {
        let answer = self.get("/", "");
        let cookie = after(&answer, "set-cookie: ").split(';').next().unwrap_or_default();
        let cookie = format!("Cookie: {cookie}\r\n");
        let page = self.get("/begin", &cookie);
        let token = after(&page, "name=\"token\" value=\"").split('"').next().unwrap_or_default();
        assert_eq!(token.len(), 32, "{page}");
        (cookie, token.to_owned())
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

fn after<'t>(text: &'t str, mark: &str) -> &'t str {
    text.split_once(mark).map_or("", |(_, rest)| rest)
}

fn status(answer: &str) -> &str {
    answer.split(' ').nth(1).unwrap_or_default()
}

fn folder() -> TempDir {
    let folder = TempDir::new().expect("a folder");
    std::fs::write(folder.path().join("a.toml"), JOB).expect("a job");
    folder
}

#[test]
fn hostile_paths_never_leave_the_folder() {
    let outside = TempDir::new().expect("a folder");
    std::fs::write(outside.path().join("secret.toml"), format!("# SECRET\n{JOB}")).expect("a file");
    let inside = outside.path().join("jobs");
    std::fs::create_dir(&inside).expect("a folder");
    std::fs::write(inside.join("a.toml"), JOB).expect("a job");
    let server = Server::start(&inside);
    let (cookie, token) = server.enter();
    assert_eq!(status(&server.get("/job/a.toml", &cookie)), "200");
    for path in [
        "/job/..%2Fsecret.toml",
        "/job/%2e%2e%2fsecret.toml",
        "/job/../secret.toml",
        "/job/..%5Csecret.toml",
        "/job/%2Fetc%2Fpasswd",
        "/assets/..%2F..%2FCargo.toml",
        "/job/a.toml/file/..%2F..%2Fsecret.toml",
        "/job/a.toml%00",
        "/%",
    ] {
        let answer = server.get(path, &cookie);
        assert!(matches!(status(&answer), "404" | "400"), "{path}: {answer}");
        assert!(!answer.contains("SECRET"), "{path}");
    }
    for other in ["..%2Fstolen.toml", "%2Ftmp%2Fstolen.toml", ".hidden.toml", "x.sh"] {
        let answer = server.post("/job/a.toml/do/save-as", &cookie, &format!("token={token}&other={other}"));
        assert_eq!(status(&answer), "409", "{other}: {answer}");
    }
    assert!(!outside.path().join("stolen.toml").exists());
}

#[test]
fn hostile_writes_without_the_token_or_from_elsewhere_change_nothing() {
    let folder = folder();
    let server = Server::start(folder.path());
    let (cookie, token) = server.enter();
    let change = "key=joints.coupon.overlap&value=20+mm";
    let path = "/job/a.toml/do/change";
    let shown = |cookie: &str| {
        after(&server.get("/job/a.toml/join", cookie), "id=\"key-joints.coupon.overlap\"")
            .chars()
            .take(60)
            .collect::<String>()
    };
    let before = shown(&cookie);
    for (headers, body) in [
        (cookie.clone(), change.to_owned()),
        (cookie.clone(), format!("token={}&{change}", "0".repeat(32))),
        (String::new(), format!("token={token}&{change}")),
        ("Cookie: fayline=0123\r\n".to_owned(), format!("token={token}&{change}")),
        (format!("{cookie}Origin: http://evil.example\r\n"), format!("token={token}&{change}")),
        (format!("{cookie}Origin: null\r\n"), format!("token={token}&{change}")),
        (format!("{cookie}Sec-Fetch-Site: cross-site\r\n"), format!("token={token}&{change}")),
    ] {
        let answer = server.post(path, &headers, &body);
        assert_eq!(status(&answer), "403", "{headers}{body}: {answer}");
    }
    assert_eq!(shown(&cookie), before);
    // A token of one session is none of another.
    let (other, _) = server.enter();
    assert_eq!(status(&server.post(path, &other, &format!("token={token}&{change}"))), "403");
    // And with all in order it is done.
    let origin = format!("Origin: http://127.0.0.1:{}\r\n", server.port);
    assert_eq!(
        status(&server.post(path, &format!("{cookie}{origin}"), &format!("token={token}&{change}"))),
        "303"
    );
    assert_ne!(shown(&cookie), before);
}

#[test]
fn hostile_names_for_this_address_are_refused() {
    let folder = folder();
    let server = Server::start(folder.path());
    let (cookie, _) = server.enter();
    for host in ["evil.example", &format!("evil.example:{}", server.port), "127.0.0.1:1", ""] {
        let answer = server.send(
            format!("GET /job/a.toml HTTP/1.1\r\nHost: {host}\r\n{cookie}Connection: close\r\n\r\n")
                .as_bytes(),
        );
        assert!(matches!(status(&answer), "421" | "400"), "{host}: {answer}");
        assert!(!answer.contains("coupon"), "{host}");
    }
    let answer = server.get("/job/a.toml", &cookie);
    assert!(answer.contains("content-security-policy: default-src 'none'; style-src 'self'"), "{answer}");
    assert!(after(&answer, "cache-control: ").starts_with("no-store"));
}

#[test]
fn hostile_bodies_that_are_too_large_or_too_slow_end() {
    let folder = folder();
    let server = Server::start(folder.path());
    let (cookie, token) = server.enter();
    let large = format!("token={token}&key=job.title&value={}", "x".repeat(200_000));
    assert_eq!(status(&server.post("/job/a.toml/do/change", &cookie, &large)), "413");
    // A body that never comes: others are answered meanwhile, and after ten seconds it is given up.
    let mut slow = server.connect();
    let host = format!("127.0.0.1:{}", server.port);
    write!(
        slow,
        "POST /job/a.toml/do/change HTTP/1.1\r\nHost: {host}\r\n{cookie}Content-Length: 1000\r\n\r\ntoken="
    )
    .expect("it is taken");
    let from = Instant::now();
    assert_eq!(status(&server.get("/job/a.toml", &cookie)), "200");
    let mut answer = [0_u8; 12];
    slow.read_exact(&mut answer).expect("an answer");
    assert_eq!(&answer, b"HTTP/1.1 408");
    assert!(from.elapsed() >= Duration::from_secs(9), "{:?}", from.elapsed());
}

#[test]
fn another_machine_is_asked_for_the_code() {
    let folder = folder();
    let (server, second) = Server::listening(folder.path(), "0.0.0.0");
    let code = second.trim_end().rsplit(' ').next().expect("a code").to_owned();
    assert_eq!(code.len(), 8, "{second}");
    let answer = server.get("/job/a.toml", "");
    assert_eq!((status(&answer), after(&answer, "location: ").lines().next()), ("303", Some("/pair")));
    assert_eq!(status(&server.post("/pair", "", "code=00")), "403");
    let answer = server.post("/pair", "", &format!("code={code}"));
    let cookie = after(&answer, "set-cookie: ").split(';').next().unwrap_or_default();
    assert_eq!(status(&server.get("/job/a.toml", &format!("Cookie: {cookie}\r\n"))), "200");
}

/// Each round changes the job and saves it, over and over, until the process is killed at some instant.
#[test]
fn a_save_that_is_killed_leaves_a_whole_file() {
    const ROUNDS: u32 = 300;
    let folder = folder();
    let path = folder.path().join("a.toml");
    let mut cut_short = 0;
    let mut overlap;
    // How long a save takes here. From there the instant moves on after each that came too early and back after each
    // that came too late, so that most lie close to the write, on a busy machine, too.
    let mut wait = {
        let server = Server::start(folder.path());
        let (cookie, token) = server.enter();
        let change = format!("token={token}&key=joints.coupon.overlap&value=12.5+mm");
        assert_eq!(status(&server.post("/job/a.toml/do/change", &cookie, &change)), "303");
        let from = Instant::now();
        assert_eq!(status(&server.post("/job/a.toml/do/save", &cookie, &format!("token={token}"))), "303");
        from.elapsed()
    };
    for round in 0..ROUNDS {
        let mut server = Server::start(folder.path());
        let (cookie, token) = server.enter();
        let before = std::fs::read_to_string(&path).expect("the file is there");
        overlap = if before.contains("12.5 mm") { 13 } else { 12 };
        let change = format!("token={token}&key=joints.coupon.overlap&value={overlap}.5+mm");
        assert_eq!(status(&server.post("/job/a.toml/do/change", &cookie, &change)), "303");
        let save = format!("token={token}");
        let request = format!(
            "POST /job/a.toml/do/save HTTP/1.1\r\nHost: 127.0.0.1:{}\r\n{cookie}Content-Length: {}\r\n\r\n{save}",
            server.port,
            save.len()
        );
        let mut stream = server.connect();
        stream.write_all(request.as_bytes()).expect("it takes the request");
        std::thread::sleep(wait * (80 + round * 37 % 41) / 100);
        server.child.kill().expect("it can be killed");
        server.child.wait().expect("it ends");
        let after = std::fs::read_to_string(&path).expect("the file is there");
        let saved = before.lines().map(|line| if line.starts_with("overlap ") { None } else { Some(line) });
        let whole = after.lines().count() == before.lines().count()
            && saved
                .zip(after.lines())
                .all(|(was, is)| was.is_none_or(|was| was == is) || is.contains(&format!("{overlap}.5 mm")));
        assert!(after == before || whole, "round {round}:\n{after}");
        cut_short += u32::from(after == before);
        wait = if after == before { wait * 11 / 10 } else { wait * 9 / 10 };
    }
    // Some were cut off before the write and some after, or this test would show nothing.
    assert!(cut_short > 0 && cut_short < ROUNDS, "{cut_short} of {ROUNDS}");
}
