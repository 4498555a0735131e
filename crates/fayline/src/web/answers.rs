//! The answers: which path asks for what, and what every request must bring along.

use std::collections::BTreeMap;
use std::convert::Infallible;
use std::pin::Pin;
use std::sync::{Arc, OnceLock};
use std::task::{Context, Poll};
use std::time::Duration;

use assessment::{Assessment, Stage};
use axum::Router;
use axum::body::{Body, Bytes, to_bytes};
use axum::extract::{Path, Query, Request, State};
use axum::http::{HeaderMap, HeaderName, HeaderValue, Method, StatusCode, header};
use axum::middleware::{self, Next};
use axum::response::sse::{Event, KeepAlive, Sse};
use axum::response::{Html, IntoResponse, Redirect, Response};
use axum::routing::{get, post};
use drawing::fonts::Cut;
use futures_core::Stream;
use quantity::System;
use tokio::sync::broadcast::error::RecvError;

use super::desk::{View, Whole};
use super::folder::{NotSaved, Unreadable};
use super::guard::{Guard, same};
use super::pages::frame::{At, in_path};
use super::pages::{begin, job as job_page, jobs, save};
use super::work::Long;
use super::{Bench, downloads, work};

/// The largest body of a request, bytes: a form.
const LARGEST_BODY: usize = 64 * 1024;
/// How long the body of a request may take.
const BODY_TIME: Duration = Duration::from_secs(10);
/// How often a file is looked at for changes by others, while a page shows it.
const LOOK: Duration = Duration::from_secs(2);
/// The name of the cookie.
const COOKIE: &str = "fayline";
/// How many jobs of a folder are shown with a verdict.
const MOST_JOBS: usize = 200;

/// The token of the session, as the guard has put it on a request.
#[derive(Clone)]
struct Token(String);

type Form = BTreeMap<String, String>;

/// All paths.
pub(super) fn router(bench: Arc<Bench>) -> Router {
    Router::new()
        .route("/", get(list))
        .route("/pair", get(ask_code).post(take_code))
        .route("/begin", get(begin_form).post(begin_job))
        .route("/job/{name}", get(overview))
        .route("/job/{name}/save", get(save_page))
        .route("/job/{name}/{stage}", get(stage))
        .route("/job/{name}/file/{what}", get(file))
        .route("/job/{name}/do/{what}", post(act))
        .route("/events", get(events))
        .route("/assets/{what}", get(asset))
        .fallback(async || sorry(StatusCode::NOT_FOUND, "There is no such page", &[]))
        .layer(middleware::from_fn_with_state(Arc::clone(&bench), guarded))
        .with_state(bench)
}

/// What every request must bring along, and what every answer takes along.
async fn guarded(State(bench): State<Arc<Bench>>, mut request: Request, next: Next) -> Response {
    let headers = request.headers();
    let host = text(headers, &header::HOST);
    let mut answer = if !bench.guard.knows_host(host) {
        sorry(
            StatusCode::MISDIRECTED_REQUEST,
            "This name is not the bench's",
            &["Open the address that the terminal shows.".to_owned()],
        )
    } else if !matches!(*request.method(), Method::GET | Method::HEAD | Method::POST) {
        sorry(StatusCode::METHOD_NOT_ALLOWED, "That cannot be done", &[])
    } else if request.uri().path().starts_with("/assets/") || request.uri().path() == "/pair" {
        next.run(request).await
    } else {
        let known = session(headers).and_then(|session| bench.guard.token(session));
        match known {
            Some(token) if *request.method() == Method::POST => match checked(request, &token).await {
                Ok(mut request) => {
                    request.extensions_mut().insert(Token(token));
                    next.run(request).await
                }
                Err(answer) => answer,
            },
            Some(token) => {
                request.extensions_mut().insert(Token(token));
                next.run(request).await
            }
            None if *request.method() == Method::POST => stale(),
            // On this machine nobody is asked for a code; on others everybody is.
            None => match bench.guard.admit(None) {
                Some(session) => let_in(&session, request.uri().path()),
                None => Redirect::to("/pair").into_response(),
            },
        }
    };
    let fixed = [
        (
            header::CONTENT_SECURITY_POLICY,
            "default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self' data:; font-src 'self'; connect-src 'self'; form-action 'self'; frame-ancestors 'none'; base-uri 'none'",
        ),
        (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
        (header::REFERRER_POLICY, "same-origin"),
        (header::X_FRAME_OPTIONS, "DENY"),
        (HeaderName::from_static("cross-origin-opener-policy"), "same-origin"),
        (HeaderName::from_static("cross-origin-resource-policy"), "same-origin"),
    ];
    for (name, value) in fixed {
        answer.headers_mut().insert(name, HeaderValue::from_static(value));
    }
    answer.headers_mut().entry(header::CACHE_CONTROL).or_insert(HeaderValue::from_static("no-store"));
    answer
}

/// A request that writes, with its body read: from a page of ours, with the token, not too large, not too slow.
async fn checked(request: Request, token: &str) -> Result<Request, Response> {
    let (parts, body) = request.into_parts();
    let site = parts.headers.get("sec-fetch-site").and_then(|value| value.to_str().ok());
    let (host, origin) = (text(&parts.headers, &header::HOST), text(&parts.headers, &header::ORIGIN));
    if !Guard::same_origin(host, origin, site) {
        return Err(sorry(
            StatusCode::FORBIDDEN,
            "This came from another page",
            &["Nothing was changed.".to_owned()],
        ));
    }
    let body = body_of(body).await?;
    if !form(&body).get("token").is_some_and(|given| same(given, token)) {
        return Err(stale());
    }
    Ok(Request::from_parts(parts, Body::from(body)))
}

async fn body_of(body: Body) -> Result<Bytes, Response> {
    match tokio::time::timeout(BODY_TIME, to_bytes(body, LARGEST_BODY)).await {
        Ok(Ok(bytes)) => Ok(bytes),
        Ok(Err(_)) => Err(sorry(
            StatusCode::PAYLOAD_TOO_LARGE,
            "That is too much at once",
            &["Nothing was changed.".to_owned()],
        )),
        Err(_) => Err(sorry(
            StatusCode::REQUEST_TIMEOUT,
            "That took too long",
            &["Nothing was changed.".to_owned()],
        )),
    }
}

fn stale() -> Response {
    sorry(
        StatusCode::FORBIDDEN,
        "This page is too old",
        &["Nothing was changed. Open the jobs again, then go on.".to_owned()],
    )
}

fn let_in(session: &str, to: &str) -> Response {
    let cookie = format!("{COOKIE}={session}; HttpOnly; SameSite=Strict; Path=/");
    let mut answer = Redirect::to(to).into_response();
    if let Ok(cookie) = HeaderValue::from_str(&cookie) {
        answer.headers_mut().insert(header::SET_COOKIE, cookie);
    }
    answer
}

fn text<'h>(headers: &'h HeaderMap, name: &HeaderName) -> Option<&'h str> {
    headers.get(name).and_then(|value| value.to_str().ok())
}

fn session(headers: &HeaderMap) -> Option<&str> {
    let cookies = text(headers, &header::COOKIE)?;
    cookies.split(';').find_map(|cookie| cookie.trim().strip_prefix(COOKIE)?.strip_prefix('='))
}

/// The fields of a form; what is none has none.
fn form(body: &[u8]) -> Form {
    form_urlencoded::parse(body).into_owned().collect()
}

fn sorry(status: StatusCode, title: &str, words: &[String]) -> Response {
    (status, Html(jobs::sorry(title, words))).into_response()
}

/// Runs what reads files or computes on a thread where it may take its time.
async fn blocking<T: Send + 'static>(work: impl FnOnce() -> T + Send + 'static) -> Result<T, Response> {
    tokio::task::spawn_blocking(work).await.map_err(|_| {
        sorry(
            StatusCode::INTERNAL_SERVER_ERROR,
            "Something broke here",
            &["This is a defect of the program; nothing was saved.".to_owned()],
        )
    })
}

async fn list(State(bench): State<Arc<Bench>>) -> Result<Html<String>, Response> {
    blocking(move || {
        let names = bench.desk.folder.jobs().into_iter().take(MOST_JOBS);
        let views: Vec<(String, Option<View>)> = names
            .map(|name| {
                let view = bench.desk.view(&name).ok();
                (name, view)
            })
            .collect();
        Html(jobs::show(&bench.desk.folder.shown(), &views))
    })
    .await
}

async fn ask_code() -> Html<String> {
    Html(jobs::pair(false))
}

async fn take_code(State(bench): State<Arc<Bench>>, body: Body) -> Result<Response, Response> {
    let body = body_of(body).await?;
    let admitted = bench.guard.admit(form(&body).get("code").map(String::as_str));
    Ok(match admitted {
        Some(session) => let_in(&session, "/"),
        None => (StatusCode::FORBIDDEN, Html(jobs::pair(true))).into_response(),
    })
}

async fn begin_form(axum::Extension(Token(token)): axum::Extension<Token>) -> Html<String> {
    Html(begin::show(&begin::Typed::new(), &[], &token))
}

async fn begin_job(
    State(bench): State<Arc<Bench>>,
    axum::Extension(Token(token)): axum::Extension<Token>,
    body: Bytes,
) -> Result<Response, Response> {
    let typed = form(&body);
    blocking(move || {
        let name = typed.get("file").map_or("", |name| name.trim()).to_owned();
        let text = begin::text_of(&typed);
        let problems = match job::read(&name, &text, &bench.desk.folder) {
            Err(problems) => begin::problems(&problems),
            Ok(_) => bench
                .desk
                .folder
                .begin(&name, &text)
                .err()
                .map(|why| format!("{name} cannot be written: {why}."))
                .into_iter()
                .collect(),
        };
        if problems.is_empty() {
            Redirect::to(&At::Overview.path(&name)).into_response()
        } else {
            (StatusCode::UNPROCESSABLE_ENTITY, Html(begin::show(&typed, &problems, &token))).into_response()
        }
    })
    .await
}

/// A view of a job, or the page that says why there is none.
async fn view(bench: &Arc<Bench>, name: &str) -> Result<View, Response> {
    let (bench, name) = (Arc::clone(bench), name.to_owned());
    blocking(move || bench.desk.view(&name)).await?.map_err(|why| match why {
        Unreadable::NoSuchJob => sorry(StatusCode::NOT_FOUND, "There is no such job in this folder", &[]),
        Unreadable::Cannot(why) => sorry(StatusCode::NOT_FOUND, "The job cannot be read", &[why]),
        Unreadable::Problems(problems) => {
            sorry(StatusCode::UNPROCESSABLE_ENTITY, "The job cannot be read", &begin::problems(&problems))
        }
    })
}

async fn overview(
    State(bench): State<Arc<Bench>>,
    axum::Extension(Token(token)): axum::Extension<Token>,
    Path(name): Path<String>,
) -> Result<Html<String>, Response> {
    let view = view(&bench, &name).await?;
    Ok(Html(job_page::show(&view, At::Overview, None, &token)))
}

async fn stage(
    State(bench): State<Arc<Bench>>,
    axum::Extension(Token(token)): axum::Extension<Token>,
    Path((name, stage)): Path<(String, String)>,
    Query(query): Query<Form>,
) -> Result<Html<String>, Response> {
    let stage = Stage::ALL.into_iter().find(|known| known.word() == stage);
    let stage = stage.ok_or_else(|| sorry(StatusCode::NOT_FOUND, "There is no such page", &[]))?;
    let view = view(&bench, &name).await?;
    Ok(Html(job_page::show(&view, At::Stage(stage), query.get("field").map(String::as_str), &token)))
}

async fn save_page(
    State(bench): State<Arc<Bench>>,
    axum::Extension(Token(token)): axum::Extension<Token>,
    Path(name): Path<String>,
) -> Result<Html<String>, Response> {
    let view = view(&bench, &name).await?;
    Ok(Html(save::show(&view, None, &token)))
}

async fn file(
    State(bench): State<Arc<Bench>>,
    Path((name, what)): Path<(String, String)>,
    Query(query): Query<Form>,
) -> Result<Response, Response> {
    let view = view(&bench, &name).await?;
    let stem = name.strip_suffix(".toml").unwrap_or(&name).to_owned();
    let found = blocking(move || {
        let assessment = whole(&bench, &view)?;
        downloads::file(&assessment, &view.text, &what, query.get("joint").map(String::as_str))
            .map(|file| (what, file))
    })
    .await?;
    match found {
        None => Err(sorry(StatusCode::NOT_FOUND, "There is no such file", &[])),
        Some((_, Err(why))) => {
            Err(sorry(StatusCode::INTERNAL_SERVER_ERROR, "The file cannot be made", &[why]))
        }
        Some((what, Ok((kind, bytes)))) => {
            let named = format!("attachment; filename*=UTF-8''{}-{}", in_path(&stem), in_path(&what));
            Ok(([(header::CONTENT_TYPE, kind.to_owned()), (header::CONTENT_DISPOSITION, named)], bytes)
                .into_response())
        }
    }
}

/// The whole assessment of what a view shows: what is taken along must not lack what takes long.
fn whole(bench: &Bench, view: &View) -> Option<Arc<Assessment>> {
    if view.whole == Whole::There {
        return view.read.as_ref().ok().cloned();
    }
    work::assessed(&view.name, &view.text, &bench.desk.folder, true).ok()
}

/// What a form asks to be done with a job.
async fn act(
    State(bench): State<Arc<Bench>>,
    axum::Extension(Token(token)): axum::Extension<Token>,
    Path((name, what)): Path<(String, String)>,
    body: Bytes,
) -> Result<Response, Response> {
    let form = form(&body);
    // A job that was never looked at is opened first.
    let before = view(&bench, &name).await?;
    let back = form.get("back").filter(|back| back.starts_with("/job/")).cloned();
    let back = back.unwrap_or_else(|| At::Overview.path(&name));
    blocking(move || {
        let said = done(&bench, &before, &what, &form);
        let desk = &bench.desk;
        match said {
            Done::Well => Redirect::to(&back).into_response(),
            Done::To(path) => Redirect::to(&path).into_response(),
            Done::Nothing => sorry(StatusCode::NOT_FOUND, "That cannot be done", &[]),
            Done::NotSaved(why) => match desk.view(&name) {
                Ok(view) => {
                    (StatusCode::CONFLICT, Html(save::show(&view, Some(&why), &token))).into_response()
                }
                Err(_) => sorry(StatusCode::NOT_FOUND, "The job cannot be read", &[why]),
            },
        }
    })
    .await
}

enum Done {
    Well,
    To(String),
    NotSaved(String),
    Nothing,
}

fn done(bench: &Bench, view: &View, what: &str, form: &Form) -> Done {
    let (desk, name) = (&bench.desk, view.name.as_str());
    let get = |field: &str| form.get(field).map_or("", String::as_str);
    match what {
        "change" => change(bench, name, form),
        "apply" => {
            let finding = view
                .read
                .as_ref()
                .ok()
                .and_then(|read| read.findings.iter().find(|it| it.id == get("finding")));
            let Some(next) = finding.and_then(|finding| finding.next.as_ref()) else { return Done::Nothing };
            desk.apply(name, &next.edits);
        }
        "begin" => desk.begin(name, get("kind"), get("called").trim()),
        "take-out" => desk.take_out(name, get("key")),
        "undo" => desk.undo(name),
        "drop" => desk.drop_changes(name),
        "take-disk" => desk.take_disk(name),
        "stop" => desk.stop(name, true),
        "resume" => desk.stop(name, false),
        "chances" => desk.ask(name, Long::Chances),
        "size" => {
            match get("target").trim().parse::<f64>().ok().filter(|target| (0.1..=10.0).contains(target)) {
                Some(target) => desk.ask(name, Long::Sizes { joint: get("joint").to_owned(), target }),
                None => desk.refuse(name, "a reserve factor from 0.1 to 10 is wanted, such as 1.2"),
            }
        }
        "sizes" => {
            let sizing = view
                .sizings
                .iter()
                .find(|(joint, _)| joint == get("joint"))
                .map(|(_, sizing)| sizing.as_ref());
            let Some(Ok(sizing)) = sizing else { return Done::Nothing };
            desk.apply(name, &sizing.edits);
        }
        "units" => desk.units(
            name,
            match view.system {
                System::Metric => System::Imperial,
                System::Imperial => System::Metric,
            },
        ),
        "save" => match desk.save(name) {
            Ok(()) => {}
            Err(NotSaved::Changed) => {
                return Done::NotSaved(
                    "The file was changed on disk meanwhile; it was not overwritten.".to_owned(),
                );
            }
            Err(NotSaved::Cannot(why)) => return Done::NotSaved(format!("It was not saved: {why}.")),
        },
        "save-as" => match desk.save_as(name, get("other").trim()) {
            Ok(()) => return Done::To(At::Overview.path(get("other").trim())),
            Err(why) => return Done::NotSaved(format!("It was not saved: {why}.")),
        },
        _ => return Done::Nothing,
    }
    Done::Well
}

fn change(bench: &Bench, name: &str, form: &Form) {
    let get = |field: &str| form.get(field).map_or("", String::as_str);
    let typed = get("value");
    let stepped = match get("step") {
        "" => None,
        step => super::step::stepped(typed, step == "more", typed.trim().parse::<u32>().is_ok()),
    };
    bench.desk.change(name, get("key"), stepped.as_deref().unwrap_or(typed));
}

/// Rings when something new is known of a job, or when its file was changed by others.
async fn events(State(bench): State<Arc<Bench>>, Query(query): Query<Form>) -> Response {
    let wanted = query.get("job").cloned().unwrap_or_default();
    let mut bell = bench.desk.bell.subscribe();
    let (send, receive) = tokio::sync::mpsc::channel::<Result<Event, Infallible>>(4);
    tokio::spawn(async move {
        let on_disk = |bench: &Arc<Bench>| bench.desk.folder.read(&wanted).ok();
        let mut seen = on_disk(&bench);
        let mut look = tokio::time::interval(LOOK);
        loop {
            let news = tokio::select! {
                rung = bell.recv() => match rung {
                    Ok(name) => wanted.is_empty() || name == wanted,
                    Err(RecvError::Lagged(_)) => true,
                    Err(RecvError::Closed) => break,
                },
                _ = look.tick() => {
                    let now = on_disk(&bench);
                    let changed = now != seen;
                    seen = now;
                    changed
                }
                () = send.closed() => break,
            };
            if news && send.send(Ok(Event::default().data("news"))).await.is_err() {
                break;
            }
        }
    });
    Sse::new(Rings(receive)).keep_alive(KeepAlive::default()).into_response()
}

/// The rings as a stream.
struct Rings(tokio::sync::mpsc::Receiver<Result<Event, Infallible>>);

impl Stream for Rings {
    type Item = Result<Event, Infallible>;

    fn poll_next(mut self: Pin<&mut Self>, context: &mut Context<'_>) -> Poll<Option<Self::Item>> {
        self.0.poll_recv(context)
    }
}

async fn asset(Path(what): Path<String>) -> Response {
    let lasting = (header::CACHE_CONTROL, "max-age=86400");
    let found: Option<(&str, Vec<u8>)> = match what.as_str() {
        "page.css" => Some(("text/css; charset=utf-8", style().as_bytes().to_vec())),
        "page.js" => Some(("text/javascript; charset=utf-8", include_bytes!("page.js").to_vec())),
        "B612-Regular.woff2" => Some(("font/woff2", Cut::Regular.woff2().to_vec())),
        "B612-Bold.woff2" => Some(("font/woff2", Cut::Bold.woff2().to_vec())),
        _ => None,
    };
    match found {
        // Fonts never change within a version; style and script are asked for again.
        Some((kind, bytes)) if kind == "font/woff2" => {
            ([(header::CONTENT_TYPE, kind), lasting], bytes).into_response()
        }
        Some((kind, bytes)) => ([(header::CONTENT_TYPE, kind)], bytes).into_response(),
        None => StatusCode::NOT_FOUND.into_response(),
    }
}

fn style() -> &'static str {
    static STYLE: OnceLock<String> = OnceLock::new();
    STYLE.get_or_init(|| {
        let face = |weight: u16, name: &str| {
            format!("@font-face{{font-family:B612;font-weight:{weight};font-display:block;src:url(/assets/{name}.woff2) format(\"woff2\")}}")
        };
        let faces = [face(400, "B612-Regular"), face(700, "B612-Bold")].concat();
        format!("{faces}\n{}\n{}", drawing::look::css(), include_str!("page.css"))
    })
}
