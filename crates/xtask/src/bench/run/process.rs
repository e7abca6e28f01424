//! A program run once, with its wall seconds, processor seconds and largest resident memory.

use std::io::Read as _;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

use anyhow::Context as _;

/// How often the process is looked at.
const LOOK: Duration = Duration::from_millis(3);

/// Clock ticks to the second in `/proc/<pid>/stat`: 100 on every Linux we know of (man 5 proc).
const TICKS: f64 = 100.0;

/// What a run left behind.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Ran {
    /// Exit code, `None` when a signal ended it.
    pub code: Option<i32>,
    /// Everything it wrote to its output.
    pub output: Vec<u8>,
    /// The end of what it wrote to its error output.
    pub errors: String,
    /// Wall seconds from start to end.
    pub seconds: f64,
    /// Processor seconds of all its threads, to a hundredth.
    pub cpu_seconds: f64,
    /// Largest resident memory, bytes: `VmHWM` of `/proc/<pid>/status`, which the kernel keeps as a
    /// high-water mark, so that only growth in the last few milliseconds can be missed. (The
    /// `ru_maxrss` of the resource usage would count this program's own memory before the exec.)
    pub peak_bytes: Option<u64>,
}

/// Runs a command to its end, or kills it after `limit`.
pub(crate) fn run(command: &mut Command, limit: Duration) -> anyhow::Result<Ran> {
    let start = Instant::now();
    let mut child = command
        .stdin(Stdio::null())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .with_context(|| format!("cannot start {}", command.get_program().display()))?;
    let pid = child.id();
    let drain = |pipe: Option<Box<dyn std::io::Read + Send>>| {
        std::thread::spawn(move || {
            let mut bytes = Vec::new();
            let whole = pipe.is_none_or(|mut p| p.read_to_end(&mut bytes).is_ok());
            (bytes, whole)
        })
    };
    let output = drain(child.stdout.take().map(|p| Box::new(p) as _));
    let errors = drain(child.stderr.take().map(|p| Box::new(p) as _));

    let (mut peak_bytes, mut cpu_seconds) = (None, 0.0);
    let status = loop {
        peak_bytes = peak(pid).or(peak_bytes);
        cpu_seconds = cpu(pid).unwrap_or(cpu_seconds);
        if let Some(status) = child.try_wait()? {
            break status;
        }
        if start.elapsed() > limit {
            child.kill()?;
        }
        std::thread::sleep(LOOK);
    };
    let seconds = start.elapsed().as_secs_f64();
    let read =
        |t: std::thread::JoinHandle<(Vec<u8>, bool)>| t.join().map(|(bytes, _)| bytes).unwrap_or_default();
    let errors = String::from_utf8_lossy(&read(errors)).trim().to_owned();
    let tail = errors.char_indices().rev().nth(500).map_or(0, |(i, _)| i);
    Ok(Ran {
        code: status.code(),
        output: read(output),
        errors: errors[tail..].to_owned(),
        seconds,
        cpu_seconds,
        peak_bytes,
    })
}

/// The high-water mark of a process's resident memory, bytes; `None` where there is no such file.
fn peak(pid: u32) -> Option<u64> {
    let status = std::fs::read_to_string(format!("/proc/{pid}/status")).ok()?;
    let line = status.lines().find_map(|l| l.strip_prefix("VmHWM:"))?;
    line.split_whitespace().next()?.parse::<u64>().ok().map(|k| k * 1024)
}

/// Processor seconds a process has used; the 14th and 15th fields of `/proc/<pid>/stat`.
fn cpu(pid: u32) -> Option<f64> {
    let stat = std::fs::read_to_string(format!("/proc/{pid}/stat")).ok()?;
    // The name, in brackets, may hold spaces; the fields are counted from after it.
    let mut fields = stat.rsplit_once(')')?.1.split_whitespace().skip(11);
    let ticks = |f: Option<&str>| f?.parse::<f64>().ok();
    Some((ticks(fields.next())? + ticks(fields.next())?) / TICKS)
}

#[cfg(all(test, target_os = "linux"))]
mod tests {
    use super::*;

    #[test]
    fn output_code_and_memory_are_seen() {
        let ran = run(
            Command::new("sh").args(["-c", "echo told; echo woe >&2; sleep 0.1; exit 3"]),
            Duration::from_secs(20),
        )
        .unwrap();
        assert_eq!(
            (ran.code, ran.output.as_slice(), ran.errors.as_str()),
            (Some(3), b"told\n".as_slice(), "woe")
        );
        assert!(ran.seconds >= 0.1);
        assert!(ran.peak_bytes.unwrap() > 100_000);
    }

    #[test]
    fn a_run_that_never_ends_is_ended() {
        let ran = run(Command::new("sleep").arg("100"), Duration::from_millis(50)).unwrap();
        assert_eq!(ran.code, None);
        assert!(ran.seconds < 20.0);
    }

    #[test]
    fn a_program_that_is_not_there_is_named() {
        let e = run(&mut Command::new("/nowhere/reglet"), Duration::from_secs(1)).unwrap_err();
        assert!(format!("{e:#}").contains("/nowhere/reglet"));
    }
}
