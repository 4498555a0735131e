//! The reader of job files. A NUL parts the job file from the data file that it may name.

#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| {
    let mut parts = bytes.splitn(2, |&byte| byte == 0);
    let text = parts.next().unwrap_or_default();
    let data = parts.next().unwrap_or_default();
    match job::decode("j.toml", text) {
        Ok(text) => {
            let read = fuzz::read(&text, data);
            // Equal input gives an equal job, to the hash.
            assert_eq!(read, fuzz::read(&text, data));
        }
        Err(problems) => {
            for problem in &problems {
                fuzz::assert_located(problem, &String::from_utf8_lossy(text));
            }
        }
    }
});
