//! Two of many, chosen by the reader, together.

use std::fmt::Write as _;

use super::FrameBox;
use super::data_uri::base64;
use super::looking::{LEGEND, TURNING, WALKING, position, shares, ways, window, zooming};
use super::text::Text;
use crate::pictures::{Overview, Shades};

pub(super) const CHOOSING_SCRIPT: &str = include_str!("choosing.js");

/// What there is to choose from.
pub(super) struct Choosing<'m> {
    /// What they are called: "copy".
    pub(super) noun: &'m str,
    /// What those are called that can be laid on each other: "Setting".
    pub(super) of: &'m str,
    /// The heading for those who do not see.
    pub(super) title: &'m str,
    /// What is seen when all is seen: "whole side".
    pub(super) whole: &'m str,
    /// The heading of the list.
    pub(super) differ: &'m str,
    /// A tool between those that walk and those that bring nearer.
    pub(super) tool: &'m str,
    /// How it is used.
    pub(super) keys: &'m str,
    /// Those that can be laid on each other.
    pub(super) groups: Vec<Group<'m>>,
}

/// Those that can be laid on each other.
pub(super) struct Group<'m> {
    /// Its number.
    pub(super) number: usize,
    /// Their numbers and files.
    pub(super) seen: Vec<(usize, &'m str)>,
    /// Where they differ.
    pub(super) places: Vec<Place>,
}

/// A place in which some of a group differ.
pub(super) struct Place {
    /// Where it is on the frame.
    pub(super) frame: FrameBox,
    /// What it is.
    pub(super) words: String,
    /// What else is said of it.
    pub(super) more: String,
    /// The number it goes by, where that is not its place among all.
    pub(super) label: Option<usize>,
    /// What each shows there: those of one letter agree, "?" is not clear.
    pub(super) readings: Vec<(usize, String)>,
}

impl Choosing<'_> {
    /// The stage and the choice of the two; nothing where no group has two that can be seen.
    pub(super) fn set(&self) -> String {
        if self.groups.is_empty() {
            return String::new();
        }
        let marks = self.marks();
        // The script tells the true sizes with the two that are chosen.
        let pane = |rank: &str, seen: &str, caption: &str| window(rank, "3x4", seen, &marks, caption);
        let mut panes = String::new();
        for (rank, caption) in [("first", "The first"), ("second", "The second")] {
            panes += &pane(
                rank,
                &format!("<img alt=\"{caption}\" draggable=\"false\">"),
                &format!("<i class=\"ink {rank}\"></i><b>{caption}</b> <bdi class=\"chosen\"></bdi>"),
            );
        }
        panes += &pane(
            "both",
            "<canvas role=\"img\" aria-label=\"Both inks laid over each other in two colours\"></canvas>",
            "<b>Together</b>",
        );
        let (choice, ways, walk, zooming) = (self.choice(), ways(), self.walk(), zooming(self.whole));
        format!(
            "<section id=\"looking\" class=\"looking of-many\" aria-labelledby=\"looking-title\" data-way=\"together\" \
             data-noun=\"{}\">\n<h2 id=\"looking-title\" class=\"unseen\">{}</h2>\n\
             <div class=\"choice\">\n{choice}</div>\n\
             <div class=\"bar\">\n{ways}<div class=\"tools\">\n{TURNING}{WALKING}{}{zooming}</div>\n</div>\n\
             <div class=\"stage\" tabindex=\"0\" role=\"group\" aria-label=\"The photographs\" \
             aria-describedby=\"keys\">\n{panes}</div>\n<div class=\"rail\">\n{LEGEND}{walk}{}</div>\n</section>\n",
            self.noun, self.title, self.tool, self.keys
        )
    }

    /// The two that are laid together.
    fn choice(&self) -> String {
        let mut options = String::new();
        for group in &self.groups {
            let _ = write!(options, "<optgroup label=\"{} {}\">", self.of, group.number);
            for (n, file) in &group.seen {
                let _ = write!(
                    options,
                    "<option value=\"{n}\" data-setting=\"{}\">{n}: {}</option>",
                    group.number,
                    Text(file)
                );
            }
            options.push_str("</optgroup>");
        }
        let select = |rank: &str, words: &str| {
            format!(
                "<label><i class=\"ink {rank}\"></i>{words} <select id=\"the-{rank}\">{options}</select></label>\n"
            )
        };
        select("first", "the first") + &select("second", "the second")
    }

    /// All places of all groups, in the order of their numbers.
    fn numbered(&self) -> impl Iterator<Item = (usize, usize, &Place)> {
        let all = self.groups.iter().flat_map(|g| g.places.iter().map(|place| (g.number, place)));
        all.enumerate().map(|(n, (group, place))| (n + 1, group, place))
    }

    /// The boxes of all places; the script shows those of the group that is looked at.
    fn marks(&self) -> String {
        let mut out = String::new();
        for (n, group, place) in self.numbered() {
            let _ = write!(
                out,
                "<i class=\"place\" style=\"{}\" data-number=\"{n}\"{} data-setting=\"{group}\" hidden></i>",
                position(place.frame),
                label(place)
            );
        }
        out
    }

    /// The list of places, and what each shows there.
    fn walk(&self) -> String {
        let mut items = String::new();
        for (n, group, place) in self.numbered() {
            let _ = writeln!(
                items,
                "<li data-setting=\"{group}\" data-readings=\"{}\" hidden><a href=\"#looking\" data-number=\"{n}\"{} \
                 data-box=\"{}\"><b>{}</b> <span class=\"score\">{}<em class=\"doubtful\" hidden>, not clear</em></span></a></li>",
                readings(&place.readings),
                label(place),
                shares(place.frame),
                Text(&place.words),
                Text(&place.more),
            );
        }
        format!(
            "<div class=\"walk\">\n<h3 id=\"places\">{}</h3>\n<p class=\"count\" id=\"count\"></p>\n\
             <p id=\"said\" class=\"unseen\" role=\"status\"></p>\n\
             <ol class=\"places\" aria-labelledby=\"places\">\n{items}</ol>\n</div>\n",
            self.differ
        )
    }
}

fn label(place: &Place) -> String {
    place.label.map_or_else(String::new, |n| format!(" data-label=\"{n}\""))
}

/// What each shows at a place: "1:a 2:b 3:?".
fn readings(of: &[(usize, String)]) -> String {
    let mut all: Vec<&(usize, String)> = of.iter().collect();
    all.sort();
    all.iter().map(|(n, letter)| format!("{n}:{letter}")).collect::<Vec<_>>().join(" ")
}

/// The ink of each for the script, by itself: of a hundred no more is ever read than is looked at.
pub(super) fn inks<'m>(shown: impl Iterator<Item = (usize, &'m Overview)>) -> String {
    let mut out = String::new();
    for (number, overview) in shown {
        let Shades { size_px: [w, h], zlib } = &overview.ink;
        let _ = write!(
            out,
            "<script type=\"text/plain\" id=\"ink-{number}\" data-width=\"{w}\" data-height=\"{h}\">"
        );
        base64(&mut out, zlib);
        out.push_str("</script>\n");
    }
    out
}
