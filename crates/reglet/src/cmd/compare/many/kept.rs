//! The ink and the colour of a copy on the disk, so that a place can be looked at in every copy of a large set.

use anyhow::{Context as _, Result};
use sheet::{Plane, Point, Rect};
use std::fs::File;
use std::io::{Read as _, Seek as _, SeekFrom, Write as _};
use std::path::PathBuf;
use std::sync::{Mutex, PoisonError};

/// A copy set upright, kept on the disk in a file without a name: it goes when the program ends.
#[derive(Debug)]
pub(super) struct Kept {
    file: Mutex<File>,
    width: usize,
    height: usize,
    has_colour: bool,
}

/// Bytes a pixel of the colour.
const COLOUR: usize = 3;

impl Kept {
    /// Keeps a copy's ink, and its colour where it is wanted.
    ///
    /// # Errors
    /// A disk that cannot be written to, with the remedy.
    pub(super) fn new(ink: &Plane<u8>, colour: Option<&Plane<[u8; 3]>>) -> Result<Self> {
        let folder = folder();
        let told = || {
            format!(
                "{}: the copies cannot be kept here while they are compared; is the disk full? Another folder is taken \
                 with TMPDIR=FOLDER before the command",
                folder.display()
            )
        };
        let mut file = tempfile::tempfile_in(&folder).with_context(told)?;
        file.write_all(ink.data()).with_context(told)?;
        if let Some(colour) = colour {
            file.write_all(colour.data().as_flattened()).with_context(told)?;
        }
        let (width, height) = (ink.width(), ink.height());
        Ok(Self { file: Mutex::new(file), width, height, has_colour: colour.is_some() })
    }

    /// The whole copy as a box.
    pub(super) fn whole(&self) -> Rect {
        Rect::new(0.0, 0.0, self.width as f64, self.height as f64)
    }

    /// The ink in a box, and where its corner lies; `None` off the copy.
    ///
    /// # Errors
    /// A disk that cannot be read.
    pub(super) fn ink(&self, place: Rect) -> Result<Option<(Plane<u8>, Point)>> {
        let Some([x, y, w, h]) = self.within(place) else { return Ok(None) };
        let samples = self.rows(0, 1, [x, y, w, h])?;
        Ok(Plane::from_vec(w, h, samples).map(|plane| (plane, Point::new(x as f64, y as f64))))
    }

    /// The colour in a box, and where its corner lies; `None` off the copy, or where no colour was kept.
    ///
    /// # Errors
    /// A disk that cannot be read.
    pub(super) fn colour(&self, place: Rect) -> Result<Option<(Plane<[u8; 3]>, Point)>> {
        let Some([x, y, w, h]) = self.within(place).filter(|_| self.has_colour) else { return Ok(None) };
        let samples = self.rows(self.width * self.height, COLOUR, [x, y, w, h])?;
        let pixels = samples.as_chunks::<COLOUR>().0.to_vec();
        Ok(Plane::from_vec(w, h, pixels).map(|plane| (plane, Point::new(x as f64, y as f64))))
    }

    /// The samples of a box of the plane that begins `from` bytes into the file, row by row.
    fn rows(&self, from: usize, samples: usize, [x, y, w, h]: [usize; 4]) -> Result<Vec<u8>> {
        let mut out = vec![0; w * h * samples];
        let mut file = self.file.lock().unwrap_or_else(PoisonError::into_inner);
        let at = |y: usize| (from + (y * self.width + x) * samples) as u64;
        if w == self.width {
            file.seek(SeekFrom::Start(at(y)))?;
            file.read_exact(&mut out)?;
            return Ok(out);
        }
        for (row, out) in out.chunks_exact_mut(w * samples).enumerate() {
            file.seek(SeekFrom::Start(at(y + row)))?;
            file.read_exact(out)?;
        }
        Ok(out)
    }

    /// The pixels that a box touches.
    fn within(&self, place: Rect) -> Option<[usize; 4]> {
        let low = |v: f64, end: usize| v.floor().clamp(0.0, end as f64) as usize;
        let high = |v: f64, end: usize| v.ceil().clamp(0.0, end as f64) as usize;
        let (x, y) = (low(place.x, self.width), low(place.y, self.height));
        let (right, foot) = (high(place.right(), self.width), high(place.bottom(), self.height));
        (right > x && foot > y).then(|| [x, y, right - x, foot - y])
    }
}

/// Where large files are kept for a while: TMPDIR, or /var/tmp, which is on a disk where /tmp may be in memory (Filesystem
/// Hierarchy Standard 3.0, 5.15), or what the system says.
fn folder() -> PathBuf {
    let large = PathBuf::from("/var/tmp");
    if std::env::var_os("TMPDIR").is_none() && large.is_dir() { large } else { std::env::temp_dir() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_kept_comes_back_box_by_box() {
        let ink = Plane::from_vec(7, 5, (0..35).collect()).unwrap();
        let colour = ink.map(|v| [v, v + 50, v + 100]);
        let kept = Kept::new(&ink, Some(&colour)).unwrap();
        let (part, corner) = kept.ink(Rect::new(1.2, 2.0, 2.5, 1.5)).unwrap().unwrap();
        assert_eq!((part.data(), corner), (&[15, 16, 17, 22, 23, 24][..], Point::new(1.0, 2.0)));
        let (part, _) = kept.colour(Rect::new(5.0, 3.0, 10.0, 10.0)).unwrap().unwrap();
        assert_eq!(part.data(), [[26, 76, 126], [27, 77, 127], [33, 83, 133], [34, 84, 134]]);
        let (whole, _) = kept.colour(kept.whole()).unwrap().unwrap();
        assert_eq!(whole.data(), colour.data());
        assert!(kept.ink(Rect::new(7.5, 0.0, 2.0, 2.0)).unwrap().is_none());
        assert!(Kept::new(&ink, None).unwrap().colour(kept.whole()).unwrap().is_none());
    }
}
