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

/// What people call their cases: the parts of a load, under which its resultants at the cut are given, too.
const PARTS_OF_A_LOAD: [&str; 6] = ["axial", "shear_y", "shear_z", "moment_y", "moment_z", "torque"];

/// "A case may not bear a fixed name, nor `member`": the list in the job crate holds every registered number.
#[test]
fn unit_no_case_bears_the_name_of_a_result() {
    let mut results = 0;
    for name in names::NUMBERS {
        if let Some(result) = name.pattern.strip_prefix("join.J.C.") {
            let expected = PARTS_OF_A_LOAD.contains(&result);
            assert_eq!(accepted(result), expected, "{result} as the name of a case");
            results += 1;
        }
    }
    assert!(results > 10, "{results} results are registered");
    assert!(!accepted("member"));
    assert!(accepted("pull"));
}
