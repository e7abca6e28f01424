//! What the signs of a numeral come to, by each of the ways of counting.

use super::symbols::{Part, Placed};

/// Signs and figures without the gaps: the figures that follow each other are one number.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(super) struct Worth {
    /// The values of the signs, in order.
    pub(super) signs: Vec<u32>,
    /// The number of the figures, if there are any.
    pub(super) figures: Option<u32>,
}

/// Values that could overflow stop here; no year comes near.
const MOST: u64 = 4_000_000;

impl Worth {
    /// Of parts. `None` if signs come after figures: 14XX is not counted here.
    pub(super) fn of(parts: &[Placed]) -> Option<Self> {
        let mut worth = Self::default();
        for placed in parts {
            match placed.part {
                Part::Sign(_) if worth.figures.is_some() => return None,
                Part::Sign(sign) => worth.signs.push(sign.value),
                Part::Figures { value, count } => {
                    let so_far = u64::from(worth.figures.unwrap_or(0));
                    let grown = so_far * 10_u64.checked_pow(count)? + u64::from(value);
                    worth.figures = Some(u32::try_from(grown.min(MOST)).ok()?);
                }
                Part::Gap | Part::Raised => {}
            }
        }
        Some(worth)
    }

    /// The sum of all signs whatever their order.
    pub(super) fn by_addition(&self) -> u32 {
        held(sum(&self.signs) + u64::from(self.figures.unwrap_or(0)))
    }

    /// Equal signs make a run; a run before a larger sign is taken from that one sign; the rest is added.
    pub(super) fn by_subtraction(&self) -> u32 {
        held(subtracted(&self.signs) + u64::from(self.figures.unwrap_or(0)))
    }
}

fn held(value: u64) -> u32 {
    u32::try_from(value.min(MOST)).unwrap_or(u32::MAX)
}

fn sum(signs: &[u32]) -> u64 {
    signs.iter().map(|&v| u64::from(v)).sum()
}

/// The subtractive reading of a list of values.
pub(super) fn subtracted(signs: &[u32]) -> u64 {
    let mut total = 0_u64;
    let mut at = 0;
    while let Some(&value) = signs.get(at) {
        let run = signs[at..].iter().take_while(|&&v| v == value).count();
        let amount = u64::from(value) * run as u64;
        match signs.get(at + run) {
            Some(&larger) if larger > value => {
                // A run worth more than the larger sign leaves nothing to take it from: it is added.
                total += u64::from(larger).checked_sub(amount).unwrap_or(amount + u64::from(larger));
                at += run + 1;
            }
            _ => {
                total += amount;
                at += run;
            }
        }
    }
    total
}

/// The multiplicative reading: a small number, apart, before an apart C or XX counts hundreds or twenties (iiij C is 400, iiij xx
/// is 80). `None` where nothing multiplies. A Spanish valuer's list of early imprints has "M iiii c iiii xx V iij" for 1488.
pub(super) fn by_multiplication(parts: &[Placed]) -> Option<u32> {
    let groups: Vec<Vec<u32>> = groups(parts)?;
    let mut total = 0_u64;
    let mut multiplied = false;
    let mut at = 0;
    while let Some(group) = groups.get(at) {
        let many = subtracted(group);
        let is_count = group.iter().all(|&v| v == 1 || v == 5) && (2..=19).contains(&many);
        match groups.get(at + 1).map(Vec::as_slice) {
            Some([100]) if is_count => total += many * 100,
            Some([10, 10]) if is_count => total += many * 20,
            _ => {
                total += many;
                at += 1;
                continue;
            }
        }
        multiplied = true;
        at += 2;
    }
    (multiplied && total <= MOST).then(|| held(total))
}

/// The signs between the gaps; `None` where figures are among them.
fn groups(parts: &[Placed]) -> Option<Vec<Vec<u32>>> {
    let mut groups = vec![Vec::new()];
    for placed in parts {
        match placed.part {
            Part::Sign(sign) => groups.last_mut()?.push(sign.value),
            Part::Gap | Part::Raised => groups.push(Vec::new()),
            Part::Figures { .. } => return None,
        }
    }
    groups.retain(|g| !g.is_empty());
    Some(groups)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn runs_are_taken_from_one_sign() {
        assert_eq!(subtracted(&[10, 10, 100]), 80);
        assert_eq!(subtracted(&[1, 1, 10]), 8);
        assert_eq!(subtracted(&[1, 1, 1, 500]), 497);
        assert_eq!(subtracted(&[10, 50, 10]), 50);
        assert_eq!(subtracted(&[]), 0);
        assert_eq!(subtracted(&[50, 50, 50, 100]), 250, "nothing to take 150 from");
    }
}
