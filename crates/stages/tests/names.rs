//! Names of load cases and names of results do not meet.

use assessment::names;

struct Nothing;

impl job::Files for Nothing {
    fn read(&self, _: &str) -> Result<Vec<u8>, String> {
        Err("there is no such file".to_owned())
    }
}

fn accepted(case: &str) -> bool {
    let text = format!(
        "fayline = 1\n[job]\ntitle = \"a\"\n[joints.w]\nform = \"lap\"\nloads.{case}.axial = \"1 kN\"\n"
    );
    job::read("job.toml", &text, &Nothing).is_ok()
}

/// "A case may not bear a fixed name, nor `member`": the list in the job crate holds every registered number.
#[test]
fn unit_no_case_bears_the_name_of_a_result() {
    let mut results = 0;
    for name in names::NUMBERS {
        if let Some(result) = name.pattern.strip_prefix("join.J.C.") {
            assert!(!accepted(result), "a case may be called {result}");
            results += 1;
        }
    }
    assert!(results > 10, "{results} results are registered");
    assert!(!accepted("member"));
    assert!(accepted("pull"));
}
