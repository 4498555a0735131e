//! A bench and a browser for tests: the program serving a folder with the demo, and a headless Chromium on it.
//!
//! The program is the one that `FAYLINE` names, the browser is driven through `chromedriver`.

use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

use fantoccini::key::Key;
use fantoccini::{Client, ClientBuilder, Locator};
use hyper_util::client::legacy::connect::HttpConnector;
use serde_json::{Value, json};
use tempfile::TempDir;

/// How long a page may take to show what is waited for.
const PATIENCE: Duration = Duration::from_secs(20);

/// How a browser looks at a page.
#[derive(Debug, Clone, Copy)]
pub struct Eyes {
    /// Width and height of the window, px.
    pub size: [u32; 2],
    /// Whether dark pages are asked for.
    pub dark: bool,
}

/// A laptop in daylight.
pub const LAPTOP: Eyes = Eyes { size: [1280, 900], dark: false };

/// A running program with a folder, and a browser.
pub struct Bench {
    /// Where the jobs are.
    pub folder: TempDir,
    /// The address of the program, such as `http://127.0.0.1:40001`.
    pub address: String,
    /// The browser.
    pub browser: Client,
    server: Child,
    driver: Child,
}

impl Bench {
    /// Starts the program on a folder with the demo, and a browser.
    pub async fn start(eyes: Eyes) -> Self {
        let folder = TempDir::new().expect("a folder");
        let program = program();
        let demo = Command::new(&program).arg("demo").arg(folder.path()).output().expect("the program runs");
        assert!(demo.status.success(), "{demo:?}");
        let (server, address) = serve(&program, folder.path());
        let port = free_port();
        let driver = Command::new("chromedriver")
            .arg(format!("--port={port}"))
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .expect("chromedriver is installed");
        let browser = connect(port, eyes).await;
        Self { folder, address, browser, server, driver }
    }

    /// Opens a path.
    pub async fn open(&self, path: &str) {
        self.browser.goto(&format!("{}{path}", self.address)).await.expect("the page opens");
    }

    /// Runs a script in the page.
    pub async fn script(&self, script: &str) -> Value {
        self.browser.execute(script, Vec::new()).await.expect("the script runs")
    }

    /// The words of an element.
    pub async fn words(&self, css: &str) -> String {
        let script = format!("return document.querySelector({})?.innerText ?? ''", json!(css));
        self.script(&script).await.as_str().unwrap_or_default().to_owned()
    }

    /// Waits until a script gives true.
    pub async fn until(&self, what: &str, script: &str) {
        let from = Instant::now();
        while self.script(script).await != Value::Bool(true) {
            assert!(from.elapsed() < PATIENCE, "waited in vain until {what}: {}", self.words("body").await);
            tokio::time::sleep(Duration::from_millis(50)).await;
        }
    }

    /// Waits until an element holds some words.
    pub async fn until_words(&self, css: &str, words: &str) {
        let script = format!(
            "return (document.querySelector({})?.innerText ?? '').includes({})",
            json!(css),
            json!(words)
        );
        self.until(&format!("{css} says {words}"), &script).await;
    }

    /// Waits until what takes long is there.
    pub async fn until_computed(&self) {
        self.until("all is computed", "return !document.querySelector('.computing')").await;
    }

    /// Presses what a selector names. What is swapped while it is pressed is looked for again.
    pub async fn press(&self, css: &str) {
        let from = Instant::now();
        loop {
            let found = self.browser.find(Locator::Css(css)).await;
            let found = found.unwrap_or_else(|error| panic!("{css}: {error}"));
            match found.click().await {
                Ok(()) => return,
                Err(error) => assert!(from.elapsed() < PATIENCE, "{css} cannot be pressed: {error}"),
            }
        }
    }

    /// Types into a field, in place of what stands there, and presses Enter.
    pub async fn fill(&self, css: &str, words: &str) {
        let field =
            self.browser.find(Locator::Css(css)).await.unwrap_or_else(|error| panic!("{css}: {error}"));
        let (control, enter) = (char::from(Key::Control), char::from(Key::Enter));
        let delete = char::from(Key::Delete);
        let typed = format!("{control}a{control}{delete}{words}{enter}");
        field.send_keys(&typed).await.expect("it can be typed into");
    }

    /// Presses a key on what has the focus.
    pub async fn key(&self, key: &str) {
        let at = self.browser.active_element().await.expect("something has the focus");
        at.send_keys(key).await.expect("keys can be pressed");
    }

    /// A file of the folder as text.
    pub fn file(&self, name: &str) -> String {
        std::fs::read_to_string(self.folder.path().join(name)).expect("the file is there")
    }

    /// The whole page as a picture.
    pub async fn picture(&self, path: &Path) {
        let height =
            self.script("return document.documentElement.scrollHeight").await.as_u64().unwrap_or(900);
        let (width, before) = self.browser.get_window_size().await.expect("a size");
        self.browser
            .set_window_size(
                u32::try_from(width).unwrap_or(1280),
                u32::try_from(height.min(8000) + 200).unwrap_or(900),
            )
            .await
            .expect("a size");
        let bytes = self.browser.screenshot().await.expect("a picture");
        self.browser
            .set_window_size(u32::try_from(width).unwrap_or(1280), u32::try_from(before).unwrap_or(900))
            .await
            .expect("a size");
        std::fs::write(path, bytes).expect("the picture can be written");
    }

    /// Ends program and browser.
    pub async fn end(mut self) {
        // A browser that is gone already is no failure of the page.
        let _ = self.browser.clone().close().await;
        let _ = self.server.kill();
        let _ = self.driver.kill();
        let _ = self.server.wait();
        let _ = self.driver.wait();
    }
}

impl Drop for Bench {
    fn drop(&mut self) {
        let _ = self.server.kill();
        let _ = self.driver.kill();
    }
}

/// The program under test.
pub fn program() -> PathBuf {
    PathBuf::from(std::env::var_os("FAYLINE").expect("FAYLINE names the program; .ci/browser sets it"))
}

fn serve(program: &Path, folder: &Path) -> (Child, String) {
    let mut server = Command::new(program)
        .args(["serve", "--port", "0"])
        .arg(folder)
        .stdout(Stdio::piped())
        .spawn()
        .expect("the program serves");
    let mut line = String::new();
    let out = server.stdout.take().expect("its words");
    let mut out = BufReader::new(out);
    out.read_line(&mut line).expect("it prints its address");
    // The pipe stays open, so that what else it prints does not end it.
    std::thread::spawn(move || for _ in out.lines() {});
    let address = line.split_whitespace().find(|word| word.starts_with("http://")).expect("an address");
    (server, address.trim_end_matches('/').to_owned())
}

fn free_port() -> u16 {
    let listener = std::net::TcpListener::bind(("127.0.0.1", 0)).expect("a port");
    listener.local_addr().expect("an address").port()
}

async fn connect(port: u16, eyes: Eyes) -> Client {
    let [width, height] = eyes.size;
    let mut arguments = vec![
        "--headless=new".to_owned(),
        "--no-sandbox".to_owned(),
        "--disable-gpu".to_owned(),
        "--disable-dev-shm-usage".to_owned(),
        "--hide-scrollbars".to_owned(),
        // Whatever would leave this machine finds no host.
        "--host-resolver-rules=MAP * ~NOTFOUND , EXCLUDE 127.0.0.1".to_owned(),
        format!("--window-size={width},{height}"),
    ];
    if eyes.dark {
        arguments.push("--blink-settings=preferredColorScheme=0".to_owned());
    }
    let wanted =
        json!({ "goog:chromeOptions": { "args": arguments }, "goog:loggingPrefs": { "performance": "ALL" } });
    let Value::Object(wanted) = wanted else { unreachable!("an object was written") };
    let from = Instant::now();
    loop {
        let mut builder = ClientBuilder::new(HttpConnector::new());
        builder.capabilities(wanted.clone());
        match builder.connect(&format!("http://127.0.0.1:{port}")).await {
            Ok(client) => return client,
            Err(error) => {
                assert!(from.elapsed() < PATIENCE, "no browser: {error}");
                tokio::time::sleep(Duration::from_millis(100)).await;
            }
        }
    }
}
