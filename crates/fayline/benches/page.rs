//! From a changed field to the redrawn page, over the wire: "Changed field to redrawn page ≤ 100 ms for the 95th
//! percentile on the demo". The peer in the same run is a page without a job, so the ratio tells what the job costs.
//!
//! `cargo bench -p fayline`

use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

const CHANGES: u32 = 200;

#[expect(clippy::print_stdout, reason = "a bench prints what it measured")]
fn main() {
    // `cargo test --benches` only sees that it builds.
    if !std::env::args().any(|argument| argument == "--bench") {
        return;
    }
    let folder = tempfile::tempdir().expect("a folder");
    let program = env!("CARGO_BIN_EXE_fayline");
    Command::new(program).arg("demo").arg(folder.path()).output().expect("the demo");
    let mut server = Command::new(program)
        .args(["serve", "--port", "0"])
        .arg(folder.path())
        .stdout(Stdio::piped())
        .spawn()
        .expect("the program serves");
    let mut line = String::new();
    BufReader::new(server.stdout.take().expect("its words")).read_line(&mut line).expect("an address");
    let address = line.trim_end().trim_end_matches('/').rsplit("//").next().expect("an address").to_owned();

    let entered = send(&address, "GET / HTTP/1.1", "", "");
    let cookie = between(&entered, "set-cookie: ", ";");
    let cookie = format!("Cookie: {cookie}\r\n");
    let page = send(&address, "GET /begin HTTP/1.1", &cookie, "");
    let token = between(&page, "name=\"token\" value=\"", "\"").to_owned();
    send(&address, "GET /job/longitudinal.toml/join HTTP/1.1", &cookie, "");

    let mut changes = Vec::new();
    let mut plain = Vec::new();
    for round in 0..CHANGES {
        let from = Instant::now();
        let body = format!(
            "token={token}&key=joints.rail.overlap&value={}+mm&back=/job/longitudinal.toml/join",
            100 + round % 40
        );
        let answer = send(&address, "POST /job/longitudinal.toml/do/change HTTP/1.1", &cookie, &body);
        assert!(answer.starts_with("HTTP/1.1 303"), "{answer}");
        let page = send(&address, "GET /job/longitudinal.toml/join HTTP/1.1", &cookie, "");
        assert!(page.contains("id=\"figure-sheet-rail\""));
        changes.push(from.elapsed());
        let from = Instant::now();
        send(&address, "GET /begin HTTP/1.1", &cookie, "");
        plain.push(from.elapsed());
    }
    let _ = server.kill();
    let _ = server.wait();
    let [half, most] = quantiles(&mut changes);
    let [plain_half, _] = quantiles(&mut plain);
    println!(
        "changed field to redrawn page: median {half:.1?}, 95th percentile {most:.1?}; a page without a job: median {plain_half:.1?}; ratio of medians {:.1}",
        half.as_secs_f64() / plain_half.as_secs_f64()
    );
}

fn quantiles(times: &mut [Duration]) -> [Duration; 2] {
    times.sort_unstable();
    [times[times.len() / 2], times[times.len() * 95 / 100]]
}

fn send(address: &str, first: &str, headers: &str, body: &str) -> String {
    let mut stream = TcpStream::connect(address).expect("it listens");
    let length = body.len();
    write!(
        stream,
        "{first}\r\nHost: {address}\r\nConnection: close\r\nContent-Length: {length}\r\n{headers}\r\n{body}"
    )
    .expect("it takes the request");
    let mut answer = String::new();
    stream.read_to_string(&mut answer).expect("an answer");
    answer
}

fn between<'t>(text: &'t str, from: &str, to: &str) -> &'t str {
    text.split_once(from).and_then(|(_, rest)| rest.split_once(to)).map_or("", |(found, _)| found)
}
