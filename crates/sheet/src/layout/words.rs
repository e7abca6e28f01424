//! Words, from the spaces between inked stretches.

use super::stretches::Stretch;

/// Spaces narrower than this are never between words, wider than the next always, in x-heights.
const NARROW: f64 = 0.15;
const WIDE: f64 = 0.9;
/// The space taken to part words when a page has too few spaces to tell, in x-heights. Common
/// practice, no source: thin space a fifth of the body, word space a third of it, body twice the x-height.
const USUAL: f64 = 0.38;
/// A line's own parting counts this much against the page's, per space of the line, up to a half.
const OWN: f64 = 0.02;

/// The space that parts words from letters, in x-heights, for all the spaces of a page (or a line).
///
/// Two classes by the least spread within them (Otsu 1979), on the logarithm of the width.
pub(super) fn parting(spaces: &[f64]) -> Option<f64> {
    let mut logs: Vec<f64> = spaces.iter().filter(|&&s| s > 0.02).map(|s| s.clamp(0.05, 1.5).ln()).collect();
    if logs.len() < 12 {
        return None;
    }
    logs.sort_by(f64::total_cmp);
    let total: f64 = logs.iter().sum();
    let n = logs.len() as f64;
    let (mut low, mut best) = (0.0, (0.0, 0));
    for i in 1..logs.len() {
        low += logs[i - 1];
        let k = i as f64;
        let apart = low / k - (total - low) / (n - k);
        let between = k * (n - k) * apart * apart;
        if between > best.0 {
            best = (between, i);
        }
    }
    (best.1 > 0).then(|| f64::midpoint(logs[best.1 - 1], logs[best.1]).exp().clamp(NARROW, WIDE))
}

/// Joins the stretches of a line into words. `page` is the parting of the whole page, if known.
pub(super) fn words(inked: &[Stretch], x_height: f64, page: Option<f64>) -> Vec<Stretch> {
    let spaces: Vec<f64> = inked.windows(2).map(|p| (p[1].from - p[0].to) / x_height).collect();
    let page = page.unwrap_or(USUAL);
    let own = parting(&spaces).map_or(page, |own| {
        let weight = (OWN * spaces.len() as f64).min(0.5);
        (own.ln() * weight + page.ln() * (1.0 - weight)).exp()
    });
    let mut out: Vec<Stretch> = Vec::new();
    for &stretch in inked {
        match out.last_mut() {
            Some(word) if (stretch.from - word.to) / x_height < own => word.to = stretch.to,
            _ => out.push(stretch),
        }
    }
    out
}
