//! Requests from a stream, one JSON object a line, and answers to another, one a line.

use std::io::{self, BufRead, Write};

/// Answers each line of `requests` with one line on `answers`, until the input ends. An empty
/// line is passed over; a line that is no request, or not even UTF-8, gets an error as its answer
/// and the next line is read.
///
/// # Errors
/// Reading or writing failed.
pub fn answer(
    app: &api::App,
    mut requests: impl BufRead,
    mut answers: impl Write,
) -> io::Result<()> {
    let mut line = Vec::new();
    while requests.read_until(b'\n', &mut line)? > 0 {
        let request = String::from_utf8_lossy(&line);
        if !request.trim().is_empty() {
            writeln!(answers, "{}", app.call(request.trim()))?;
            // Whoever waits for the answer before asking again must get it now.
            answers.flush()?;
        }
        line.clear();
    }
    Ok(())
}
