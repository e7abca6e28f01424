//! The yardstick: one Python process that serves pairs line by line, so that its start is not timed.

use std::io::{BufRead as _, BufReader, Write as _};
use std::path::Path;
use std::process::{Child, ChildStdin, ChildStdout, Command, Stdio};

use anyhow::Context as _;
use evidence::Verdict;
use serde::{Deserialize, Serialize};

use crate::bench::answer::{Answer, Reported};

/// A running yardstick. It ends when this is dropped, for its input then ends.
#[derive(Debug)]
pub(crate) struct Yardstick {
    child: Child,
    ask: Option<ChildStdin>,
    answers: BufReader<ChildStdout>,
}

/// A request, one line of JSON.
#[derive(Debug, Serialize)]
struct Request<'a> {
    a: &'a Path,
    b: &'a Path,
    ppi_a: Option<f64>,
    ppi_b: Option<f64>,
    points: Vec<[f64; 2]>,
}

/// An answer, one line of JSON.
#[derive(Debug, Deserialize)]
struct Said {
    verdict: Option<Verdict>,
    error: Option<String>,
    score: Option<f64>,
    residual: Option<Residual>,
    #[serde(default)]
    changes: Vec<Reported>,
    #[serde(default)]
    points: Vec<[f64; 2]>,
    seconds: f64,
    cpu_seconds: f64,
    peak_bytes: Option<u64>,
}

#[derive(Debug, Deserialize)]
struct Residual {
    median_mm: Option<f64>,
    median_px: Option<f64>,
}

impl Yardstick {
    /// Starts it; fails when Python or OpenCV is missing.
    pub(crate) fn start(root: &Path) -> anyhow::Result<Self> {
        let python = outside::python();
        let checked = Command::new(&python).args(["-c", "import cv2, numpy, scipy"]).output();
        let ready = checked.as_ref().is_ok_and(|o| o.status.success());
        anyhow::ensure!(
            ready,
            "{} cannot import cv2, numpy and scipy; set REGLET_PYTHON to a Python that can \
             (`sh run.sh test` makes one in target/venv), or leave the yardstick out with --alone",
            python.display()
        );
        let mut child = Command::new(&python)
            .arg(root.join("crates/xtask/yardstick/serve.py"))
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()
            .with_context(|| format!("cannot start {}", python.display()))?;
        let ask = child.stdin.take();
        let answers = child.stdout.take().map(BufReader::new).context("the yardstick has no output")?;
        Ok(Self { child, ask, answers })
    }

    /// Asks it about a pair; `points` are the sealed points whose places on B it is to give.
    pub(crate) fn judge(
        &mut self,
        (a, b): (&Path, &Path),
        (ppi_a, ppi_b): (Option<f64>, Option<f64>),
        points: &[[f64; 4]],
    ) -> anyhow::Result<Answer> {
        let points = points.iter().map(|p| [p[0], p[1]]).collect();
        let line = serde_json::to_string(&Request { a, b, ppi_a, ppi_b, points })?;
        let ask = self.ask.as_mut().context("the yardstick has ended")?;
        writeln!(ask, "{line}").context("the yardstick takes no more requests")?;
        let mut line = String::new();
        self.answers.read_line(&mut line)?;
        anyhow::ensure!(!line.is_empty(), "the yardstick ended without an answer on {}", a.display());
        let said: Said = serde_json::from_str(&line).with_context(|| format!("the yardstick said {line}"))?;
        Ok(Answer {
            verdict: said.verdict,
            error: said.error,
            score: said.score,
            residual_mm: said.residual.as_ref().and_then(|r| r.median_mm),
            residual_px: said.residual.as_ref().and_then(|r| r.median_px),
            changes: said.changes,
            points: said.points.into_iter().map(Some).collect(),
            seconds: said.seconds,
            cpu_seconds: said.cpu_seconds,
            peak_bytes: said.peak_bytes,
            ..Answer::default()
        })
    }
}

impl Drop for Yardstick {
    fn drop(&mut self) {
        // Without its input it ends by itself; then it is waited for, so that no process is left.
        self.ask = None;
        if let Err(e) = self.child.wait() {
            eprintln!("the yardstick could not be waited for: {e}");
        }
    }
}
