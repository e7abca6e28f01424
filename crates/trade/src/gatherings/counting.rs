//! A formula counted out, leaf by leaf.

use super::altered::Altered;
use super::book::{Book, Fellow, Gathering, Leaf, Standing};
use super::formes::{Formes, Making, formes};
use super::formula::{Added, Change, Formula, Item, Run};
use super::read::{gatherings, leaves_of, nth_of};
use super::signature::{LeafName, Place, Signature};

/// The gatherings and leaves as they are counted out.
struct Counting {
    making: Option<(u16, Making)>,
    book: Book,
    /// The name of each leaf, where it has one.
    names: Vec<Option<LeafName>>,
}

impl Book {
    /// Counts a formula out.
    pub fn of(formula: &Formula) -> Self {
        let making = formula.format.map(|f| (f.number, Making::of(f.number)));
        let book = Self { gatherings: Vec::new(), leaves: Vec::new() };
        let mut counting = Counting { making, book, names: Vec::new() };
        for item in &formula.items {
            counting.item(item);
        }
        counting.statements(formula);
        counting.book
    }
}

impl Counting {
    fn item(&mut self, item: &Item) {
        match item {
            Item::Run(run) => {
                for nth in 0..gatherings(run) {
                    self.gathering_of_run(run, nth);
                }
            }
            Item::Leaf { name, .. } => {
                let at = self.gathering(name.to_string(), 1, None, is_unsigned(&name.signature));
                self.leaf(name.to_string(), at, Standing::Regular, Fellow::None, Some(name.clone()), None);
            }
            Item::SingleSheet => {
                let leaves = self.making.as_ref().map_or(1, |(format, _)| *format);
                let at = self.gathering("the sheet".to_owned(), leaves, None, true);
                let made = self.book.gatherings[at].made;
                for leaf in 1..=leaves {
                    let name = if leaves == 1 { "the sheet".to_owned() } else { format!("leaf {leaf}") };
                    let fellow = if leaves > 1 {
                        Fellow::Leaf { name: format!("leaf {}", leaves + 1 - leaf) }
                    } else {
                        Fellow::None
                    };
                    let formes = made.and_then(|m| formes(m, leaves, leaf, leaves));
                    self.leaf(name, at, Standing::Regular, fellow, None, formes);
                }
            }
        }
    }

    fn gathering_of_run(&mut self, run: &Run, nth: u32) {
        let leaves = leaves_of(run, nth);
        let signature = signature_of(run, nth);
        let name = signature.as_ref().map_or_else(
            || {
                let mut range = String::new();
                run.write_range(false, &mut range).ok();
                format!("{range} (no. {})", nth + 1)
            },
            Signature::to_string,
        );
        let unsigned = run.is_enclosed || is_unsigned(&run.first);
        let at = self.gathering(name.clone(), leaves, None, unsigned);
        // Alterations beside a run belong to one gathering of it each.
        let of_this = |signature: &Signature| nth_of(run, signature) == Some(nth);
        let changes: Vec<&Change> =
            run.changes.iter().filter(|c| super::altered::of(c).is_some_and(of_this)).collect();
        self.leaves_of_gathering(at, &name, signature.as_ref(), leaves, &changes, Standing::Regular);
    }

    /// The leaves of a gathering as folded, less and more what was altered.
    fn leaves_of_gathering(
        &mut self,
        at: usize,
        name: &str,
        signature: Option<&Signature>,
        leaves: u16,
        changes: &[&Change],
        standing: Standing,
    ) {
        let altered = Altered::of(changes);
        // A gathering put in the place of another is folded from a sheet as that was, so its leaves have fellows and formes.
        let standing = if altered.is_new_whole() { Standing::Replacing } else { standing };
        let lowered = matches!(signature.map(Signature::place), Some(Place::Number(_)));
        let call = |number: u16| {
            let mut out = name.to_owned();
            if lowered {
                super::write::lowered(u32::from(number), &mut out).ok();
            } else {
                out.push_str(&number.to_string());
            }
            out
        };
        let made = self.book.gatherings[at].made;
        let format = self.making.as_ref().map_or(0, |(f, _)| *f);
        for number in 1..=leaves {
            let leaf_name = signature.map(|s| LeafName { signature: s.clone(), number });
            let other = leaves + 1 - number;
            let there = altered.is_there(number);
            if let Some(by) = altered.put_for(number) {
                self.add(by, at);
            }
            if there {
                let (how, fellow) = if altered.is_replaced(number) {
                    (Standing::Replacing, Fellow::None)
                } else if altered.in_pair(number) {
                    (Standing::Replacing, Fellow::Leaf { name: call(other) })
                } else if other == number {
                    (standing, Fellow::None)
                } else if altered.is_there(other) && !altered.is_replaced(other) {
                    (standing, Fellow::Leaf { name: call(other) })
                } else {
                    (standing, Fellow::CutAway { name: call(other) })
                };
                let is_of_sheet = how == standing;
                let formes = made.filter(|_| is_of_sheet).and_then(|m| formes(m, format, number, leaves));
                self.leaf(call(number), at, how, fellow, leaf_name, formes);
            }
            for what in altered.put_after(number) {
                self.add(what, at);
            }
        }
    }

    /// What was put in, at a place within a gathering.
    fn add(&mut self, what: &[Added], within: usize) {
        for one in what {
            match one {
                Added::Leaf(name) => {
                    self.leaf(
                        name.to_string(),
                        within,
                        Standing::Inserted,
                        Fellow::None,
                        Some(name.clone()),
                        None,
                    );
                }
                Added::Printed(text) => {
                    self.leaf(format!("'{text}'"), within, Standing::Inserted, Fellow::None, None, None);
                }
                Added::Unnamed(n) => {
                    for _ in 0..*n {
                        let before = self.book.leaves.last().map_or("", |l| l.name.as_str());
                        let name = format!("{}+1", before.trim_end_matches("+1"));
                        self.leaf(name, within, Standing::Inserted, Fellow::None, None, None);
                    }
                }
                Added::Gathering { signature, leaves, changes } => {
                    let name = signature.to_string();
                    let at = self.gathering(name.clone(), *leaves, Some(within), is_unsigned(signature));
                    let changes: Vec<&Change> = changes.iter().collect();
                    self.leaves_of_gathering(
                        at,
                        &name,
                        Some(signature),
                        *leaves,
                        &changes,
                        Standing::Inserted,
                    );
                }
            }
        }
    }

    fn gathering(&mut self, name: String, leaves: u16, laid_in: Option<usize>, is_unsigned: bool) -> usize {
        let made = self.making.as_ref().map(|(_, making)| making.made(leaves));
        self.book.gatherings.push(Gathering { name, folded_leaves: leaves, laid_in, made, is_unsigned });
        self.book.gatherings.len() - 1
    }

    fn leaf(
        &mut self,
        name: String,
        gathering: usize,
        standing: Standing,
        fellow: Fellow,
        leaf_name: Option<LeafName>,
        formes: Option<Formes>,
    ) {
        self.book.leaves.push(Leaf {
            name,
            gathering,
            number: leaf_name.as_ref().map(|n| n.number),
            standing,
            fellow,
            formes,
            recto_page: None,
            verso_page: None,
            is_signed: None,
            is_blank: false,
        });
        self.names.push(leaf_name);
    }

    /// Pages, signatures and blank leaves, as the statements have them.
    fn statements(&mut self, formula: &Formula) {
        let s = &formula.statements;
        if let Some(pagination) = &s.pagination {
            let mut labels = pagination.labels();
            for leaf in &mut self.book.leaves {
                leaf.recto_page = labels.next();
                if !pagination.is_foliation {
                    leaf.verso_page = labels.next();
                }
            }
        }
        let is_in = |list: &[LeafName], name: Option<&LeafName>| {
            name.is_some_and(|n| {
                list.iter().any(|l| l.number == n.number && l.signature.is_same(&n.signature))
            })
        };
        let blank: Vec<LeafName> = formula
            .items
            .iter()
            .filter_map(|i| if let Item::Run(r) = i { Some(&r.blank) } else { None })
            .flatten()
            .chain(&s.blank)
            .cloned()
            .collect();
        for (leaf, name) in self.book.leaves.iter_mut().zip(&self.names) {
            leaf.is_blank = is_in(&blank, name.as_ref());
            leaf.is_signed = s.signing.as_ref().map(|signing| {
                let by_rule = !self.book.gatherings[leaf.gathering].is_unsigned
                    && name.as_ref().is_some_and(|n| n.number <= signing.first && !n.signature.is_unsigned());
                (by_rule && !is_in(&signing.except, name.as_ref())) || is_in(&signing.also, name.as_ref())
            });
        }
    }
}

/// Whether the leaves of a gathering carry no signature by definition.
fn is_unsigned(signature: &Signature) -> bool {
    signature.is_unsigned() || signature.is_inferred
}

/// The signature of the n-th gathering of a run, as written at its ends, and by the alphabet between; none in alphabets
/// whose order is not fixed.
fn signature_of(run: &Run, nth: u32) -> Option<Signature> {
    if nth == 0 {
        return Some(run.first.clone());
    }
    if nth + 1 == gatherings(run) {
        return run.last.clone();
    }
    let place = match run.first.place() {
        Place::InAlphabet(a, p) => Place::InAlphabet(a, p + nth),
        Place::Number(n) => Place::Number(n + nth),
        Place::Alone => return None,
    };
    run.first.at(place)
}
