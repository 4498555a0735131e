//! Who may ask: hosts and origins that are ours, sessions that were let in, tokens on everything that writes.

use std::collections::BTreeMap;
use std::net::SocketAddr;
use std::sync::Mutex;
use std::time::{Duration, Instant};

/// How long a session lives without being used.
const IDLE: Duration = Duration::from_hours(12);
/// Sessions at a time; the one that was not used for longest goes.
const MOST_SESSIONS: usize = 64;
/// Wrong pairing codes until none is taken any more.
const MOST_TRIES: u32 = 10;

/// One browser that was let in.
struct Session {
    token: String,
    used: Instant,
}

/// The keeper of the door.
pub(super) struct Guard {
    /// `Host` headers that are ours: any other is a name that somebody else gave to this address.
    hosts: Vec<String>,
    /// The code to be typed before a browser is let in; none where only this machine can ask.
    code: Option<String>,
    tries: Mutex<u32>,
    sessions: Mutex<BTreeMap<String, Session>>,
}

impl Guard {
    /// A guard for an address. Away from loopback a code is asked for.
    pub(super) fn new(address: SocketAddr) -> Self {
        let port = address.port();
        let mut hosts: Vec<String> =
            ["127.0.0.1", "localhost", "[::1]"].iter().map(|host| format!("{host}:{port}")).collect();
        hosts.push(address.to_string());
        let code = (!address.ip().is_loopback()).then(code);
        Self { hosts, code, tries: Mutex::new(0), sessions: Mutex::new(BTreeMap::new()) }
    }

    /// The code to be typed on the other machine.
    pub(super) fn code(&self) -> Option<&str> {
        self.code.as_deref()
    }

    /// Whether a `Host` header names this server. Listening on all addresses, any address with our port is, but no name.
    pub(super) fn knows_host(&self, host: Option<&str>) -> bool {
        let Some(host) = host else { return false };
        let ours = |known: &String| known.eq_ignore_ascii_case(host);
        let port = self.hosts.last().and_then(|last| last.rsplit(':').next());
        let by_address = self.code.is_some()
            && host.parse::<SocketAddr>().is_ok_and(|it| Some(it.port().to_string().as_str()) == port);
        self.hosts.iter().any(ours) || by_address
    }

    /// Whether what writes comes from a page of this server.
    pub(super) fn same_origin(host: Option<&str>, origin: Option<&str>, site: Option<&str>) -> bool {
        let from_here = match (origin, host) {
            (Some(origin), Some(host)) => origin.strip_prefix("http://") == Some(host),
            (Some(_), None) => false,
            // Programs send none; they have no cookie of a browser either.
            (None, _) => true,
        };
        from_here && site.is_none_or(|site| matches!(site, "same-origin" | "none"))
    }

    /// Lets a browser in; gives the name of its session. Where a code is asked for, the right one must be given.
    pub(super) fn admit(&self, code: Option<&str>) -> Option<String> {
        if let Some(right) = &self.code {
            let mut tries = self.tries.lock().ok()?;
            if *tries >= MOST_TRIES {
                return None;
            }
            if !code.is_some_and(|code| same(code.trim(), right)) {
                *tries += 1;
                return None;
            }
        }
        let mut sessions = self.sessions.lock().ok()?;
        sessions.retain(|_, session| session.used.elapsed() < IDLE);
        if sessions.len() >= MOST_SESSIONS {
            let oldest =
                sessions.iter().min_by_key(|(_, session)| session.used).map(|(name, _)| name.clone());
            sessions.remove(&oldest?);
        }
        let (name, token) = (random()?, random()?);
        sessions.insert(name.clone(), Session { token, used: Instant::now() });
        Some(name)
    }

    /// The token of a session that is still good.
    pub(super) fn token(&self, session: &str) -> Option<String> {
        let mut sessions = self.sessions.lock().ok()?;
        let known = sessions.get_mut(session)?;
        if known.used.elapsed() >= IDLE {
            sessions.remove(session);
            return None;
        }
        known.used = Instant::now();
        Some(known.token.clone())
    }
}

/// Whether two secrets are the same, in a time that does not tell how far.
pub(super) fn same(one: &str, other: &str) -> bool {
    one.len() == other.len() && one.bytes().zip(other.bytes()).fold(0, |found, (a, b)| found | (a ^ b)) == 0
}

/// Sixteen random bytes in hexadecimal digits; nothing where the system has no randomness.
fn random() -> Option<String> {
    let mut bytes = [0_u8; 16];
    getrandom::fill(&mut bytes).ok()?;
    Some(format!("{:032x}", u128::from_be_bytes(bytes)))
}

/// Eight digits to be read off one screen and typed on another.
fn code() -> String {
    let mut bytes = [0_u8; 8];
    // Without randomness nobody is let in: the code is one that nobody can type.
    if getrandom::fill(&mut bytes).is_err() {
        return String::new();
    }
    format!("{:08}", u64::from_le_bytes(bytes) % 100_000_000)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn unit_only_our_own_names_are_hosts() {
        let guard = Guard::new("127.0.0.1:8321".parse().unwrap());
        for host in ["127.0.0.1:8321", "localhost:8321", "LOCALHOST:8321", "[::1]:8321"] {
            assert!(guard.knows_host(Some(host)), "{host}");
        }
        for host in
            [None, Some("evil.example:8321"), Some("127.0.0.1:80"), Some("192.168.0.9:8321"), Some("")]
        {
            assert!(!guard.knows_host(host), "{host:?}");
        }
        let open = Guard::new("0.0.0.0:8321".parse().unwrap());
        assert!(open.knows_host(Some("192.168.0.9:8321")));
        assert!(!open.knows_host(Some("192.168.0.9:80")) && !open.knows_host(Some("evil.example:8321")));
    }

    #[test]
    fn unit_a_code_lets_in_and_ten_wrong_ones_end_it() {
        let guard = Guard::new("192.168.0.9:8321".parse().unwrap());
        let right = guard.code().unwrap().to_owned();
        assert_eq!(right.len(), 8);
        assert!(guard.admit(None).is_none());
        let session = guard.admit(Some(&right)).unwrap();
        assert_eq!(guard.token(&session).unwrap().len(), 32);
        assert!(guard.token("other").is_none());
        for _ in 0..9 {
            assert!(guard.admit(Some("no")).is_none());
        }
        assert!(guard.admit(Some(&right)).is_none());
        assert!(guard.token(&session).is_some());
    }

    #[test]
    fn unit_other_origins_are_foreign() {
        let host = Some("localhost:8321");
        assert!(Guard::same_origin(host, Some("http://localhost:8321"), Some("same-origin")));
        assert!(Guard::same_origin(host, None, None));
        assert!(!Guard::same_origin(host, Some("http://evil.example"), None));
        assert!(!Guard::same_origin(host, Some("null"), None));
        assert!(!Guard::same_origin(host, None, Some("cross-site")));
    }
}
