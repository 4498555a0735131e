//! Edits of a job file. The first line is the key, the second the value, the rest the job file.

#![no_main]

use job::Edit;

libfuzzer_sys::fuzz_target!(|input: &str| {
    let mut lines = input.splitn(3, '\n');
    let mut next = || lines.next().unwrap_or_default().to_owned();
    let edit = Edit { key: next(), value: next() };
    let text = next();
    match job::edit(&text, std::slice::from_ref(&edit)) {
        Ok(edited) => {
            // What was edited is there: the same edit once more changes nothing.
            assert_eq!(job::edit(&edited, &[edit]).as_deref(), Ok(&*edited));
        }
        Err(problems) => {
            assert!(!problems.is_empty(), "refused without a problem");
            for problem in &problems {
                fuzz::assert_located(problem, &text);
            }
        }
    }
});
