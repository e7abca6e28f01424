//! Where the user says the cut is on each photograph.

use anyhow::{Result, bail};
use sheet::Rect;

/// A part of a photograph, or `-`: the cut is to be found.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Region(Option<Rect>);

impl Region {
    /// As typed: `X,Y,W,H` in pixels, or `-`.
    pub(super) fn parse(text: &str) -> Result<Self, String> {
        if text.trim() == "-" {
            return Ok(Self(None));
        }
        let numbers: Vec<f64> = text.split(',').filter_map(|t| t.trim().parse().ok()).collect();
        match numbers[..] {
            [x, y, w, h]
                if text.split(',').count() == 4
                    && x >= 0.0
                    && y >= 0.0
                    && w >= 1.0
                    && h >= 1.0
                    && numbers.iter().all(|v| v.is_finite()) =>
            {
                Ok(Self(Some(Rect::new(x, y, w, h))))
            }
            _ => Err(format!(
                "\"{text}\" is no region: give left, top, width and height in pixels of the photograph, as in 120,80,600,600, or - for one to be found"
            )),
        }
    }

    /// One for each of so many photographs.
    ///
    /// # Errors
    /// When there are more than photographs, or several but not one for each.
    pub(super) fn for_each(said: &[Self], photographs: usize) -> Result<Vec<Option<Rect>>> {
        match said {
            [] => Ok(vec![None; photographs]),
            [Self(one)] => Ok(vec![*one; photographs]),
            each if each.len() == photographs => Ok(each.iter().map(|r| r.0).collect()),
            some => bail!(
                "--region is given {} times for {photographs} photographs: give it once for all, or once for each in their order, with - where the cut is to be found",
                some.len()
            ),
        }
    }

    /// As it would be typed again.
    pub(super) fn typed(self) -> String {
        self.0
            .map_or_else(|| "--region -".to_owned(), |r| format!("--region {},{},{},{}", r.x, r.y, r.w, r.h))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn regions_are_read_and_given_out() {
        let one = Region::parse("10, 20,300,200").unwrap();
        assert_eq!(one, Region(Some(Rect::new(10.0, 20.0, 300.0, 200.0))));
        assert_eq!(one.typed(), "--region 10,20,300,200");
        let found = Region::parse("-").unwrap();
        assert_eq!(Region::for_each(&[one, found], 2).unwrap(), [one.0, None]);
        assert_eq!(Region::for_each(&[one], 3).unwrap(), [one.0; 3]);
        assert_eq!(Region::for_each(&[], 2).unwrap(), [None; 2]);
        assert!(Region::for_each(&[one, found], 3).unwrap_err().to_string().contains("2 times for 3"));
    }

    #[test]
    fn what_is_no_region_is_refused_with_an_example() {
        for text in ["", "1,2,3", "1,2,3,4,5", "a,b,c,d", "0,0,0,5", "-5,0,10,10", "NaN,0,1,1", "1,2,inf,4"] {
            assert!(Region::parse(text).unwrap_err().contains("120,80,600,600"), "{text}");
        }
    }
}
