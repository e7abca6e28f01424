//! Real photographs against Pillow. Needs `$REGLET_REAL` (or `../shared/real` beside the repository) and a
//! Python with Pillow (`$REGLET_PYTHON` or `target/venv/bin/python`); says so and passes where they lack.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may stop at what should not be")]
#![allow(clippy::disallowed_methods, reason = "a test on photographs must find and read them")]

use std::path::{Path, PathBuf};
use std::process::Command;

use outside::{python_with, root};
use sheet::decode::{DecodeRequest, decode};

fn real() -> Option<PathBuf> {
    let folder = std::env::var_os("REGLET_REAL").map_or_else(|| root().join("../shared/real"), PathBuf::from);
    folder.is_dir().then_some(folder)
}

/// Every picture under the folder, in order of name.
fn pictures(folder: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    let mut folders = vec![folder.to_path_buf()];
    while let Some(next) = folders.pop() {
        for entry in std::fs::read_dir(next).unwrap() {
            let path = entry.unwrap().path();
            let kind = path.extension().and_then(|e| e.to_str()).unwrap_or_default().to_lowercase();
            if path.is_dir() {
                folders.push(path);
            } else if ["jpg", "jpeg", "png", "tif", "tiff", "jp2"].contains(&kind.as_str()) {
                found.push(path);
            }
        }
    }
    found.sort();
    found
}

/// About twenty pictures spread over the folder, or every one when `REGLET_ALL` is set.
fn sample(folder: &Path) -> Vec<PathBuf> {
    let all = pictures(folder);
    let step = if std::env::var_os("REGLET_ALL").is_some() { 1 } else { (all.len() / 20).max(1) };
    all.into_iter().step_by(step).collect()
}

#[test]
fn real_photographs_have_the_brightness_that_pillow_reads() {
    let (Some(folder), Some(python)) = (real(), python_with("PIL, numpy")) else {
        println!("skipped: no real photographs or no Python with Pillow");
        return;
    };
    for path in sample(&folder) {
        let name = path.display();
        let photograph = decode(&std::fs::read(&path).unwrap(), &DecodeRequest::default())
            .unwrap_or_else(|e| panic!("{name}: {e}"));
        let script = root().join("tests/reference/luminance.py");
        let output = Command::new(&python).arg(script).arg(&path).output().unwrap();
        assert!(output.status.success(), "{name}: {}", String::from_utf8_lossy(&output.stderr));
        let (size, pixels) = output.stdout.split_at(8);
        let number = |b: &[u8]| u32::from_le_bytes(b.try_into().unwrap()) as usize;
        let plane = &photograph.luminance;
        assert_eq!((plane.width(), plane.height()), (number(&size[..4]), number(&size[4..])), "{name}");
        let differences = plane.data().iter().zip(pixels).map(|(a, b)| u64::from(a.abs_diff(*b)));
        let mean = differences.sum::<u64>() as f64 / pixels.len() as f64;
        assert!(mean <= 0.5, "{name}: mean difference {mean:.3}");
        let tags: Vec<_> =
            photograph.file.resolution_tags.iter().map(|t| (t.ppi_x().round(), t.source)).collect();
        println!("{mean:.3} {name} {tags:?} {:?}", photograph.file.notices);
    }
}
