//! Many drawings of one screen, merged into one that holds every part and says of each when it shows.
//!
//! A condition names what has to be ticked (`data-when`, one of these words), what has to be ticked where what passed is over
//! (`data-over`, if that is another list), what has to be the place (`data-where`, one of these words), and whether the main button
//! has to have been pressed (`data-pressed`). What lies in a part that is hidden is hidden with it. Whoever merges finds out whether that can say what the drawings show, or hears which part it can't.

use record::markup::{Node, Tag};
use std::collections::BTreeSet;

/// What is answered while a screen is drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct State {
    /// What is ticked: a word, or several.
    pub ticked: Vec<&'static str>,
    /// Whether what passed is over.
    pub over: bool,
    /// The place.
    pub place: &'static str,
    /// Whether the main button has been pressed.
    pub pressed: bool,
}

/// When a part shows; all of it has to hold.
#[derive(Clone, Debug, Default)]
struct Condition {
    when: Option<Vec<&'static str>>,
    /// In place of `when`, where what passed is over.
    over: Option<Vec<&'static str>>,
    place: Option<Vec<&'static str>>,
    pressed: bool,
}

impl Condition {
    fn holds(&self, state: &State) -> bool {
        let when = if state.over { self.over.as_ref().or(self.when.as_ref()) } else { self.when.as_ref() };
        when.is_none_or(|words| words.iter().any(|word| state.ticked.contains(word)))
            && self.place.as_ref().is_none_or(|words| words.contains(&state.place))
            && (state.pressed || !self.pressed)
    }

    fn is_bare(&self) -> bool {
        self.when.is_none() && self.over.is_none() && self.place.is_none() && !self.pressed
    }
}

/// The words of some of the states, each once.
fn words(from: &[State], of: fn(&State) -> bool, word: fn(&State) -> &'static str) -> Vec<&'static str> {
    let mut words = Vec::new();
    for state in from.iter().filter(|state| of(state)) {
        if !words.contains(&word(state)) {
            words.push(word(state));
        }
    }
    words
}

/// A node and the drawings that it is part of, by number.
struct Part {
    node: Node,
    inner: Vec<Part>,
    drawn: BTreeSet<usize>,
}

impl Part {
    fn new(node: &Node, number: usize) -> Self {
        let mut part = Self { node: node.clone(), inner: Vec::new(), drawn: BTreeSet::new() };
        if let Node::Tag(tag) = &mut part.node {
            tag.children.clear();
        }
        part.take(node, number);
        part
    }

    /// Whether a node of another drawing is the same part.
    fn is(&self, node: &Node) -> bool {
        match (&self.node, node) {
            (Node::Tag(one), Node::Tag(other)) => {
                one.name == other.name
                    && one.key == other.key
                    && ["id", "class"].iter().all(|name| one.get(name) == other.get(name))
            }
            (Node::Text(one), Node::Text(other)) => one == other,
            _ => false,
        }
    }

    /// Takes the same part of another drawing in.
    fn take(&mut self, node: &Node, number: usize) {
        self.drawn.insert(number);
        let Node::Tag(tag) = node else { return };
        let mut at = 0;
        for child in &tag.children {
            match self.inner[at..].iter().position(|part| part.is(child)) {
                Some(further) => {
                    at += further;
                    self.inner[at].take(child, number);
                }
                None => self.inner.insert(at, Self::new(child, number)),
            }
            at += 1;
        }
    }

    /// The condition under which it shows, where what it lies in shows.
    fn condition(&self, around: &BTreeSet<usize>, states: &[State]) -> Result<Condition, String> {
        // Where one word is ticked alone, it is that word that decides.
        let alone = |drawn: &BTreeSet<usize>| -> Vec<State> {
            drawn.iter().map(|number| states[*number].clone()).filter(|state| state.ticked.len() == 1).collect()
        };
        let (here, all) = (alone(&self.drawn), alone(around));
        let narrowed = |of: fn(&State) -> bool, word: fn(&State) -> &'static str| {
            let (some, every) = (words(&here, of, word), words(&all, of, word));
            (some.len() < every.len()).then_some(some)
        };
        let pressed = here.iter().all(|state| state.pressed) && !all.iter().all(|state| state.pressed);
        let when = narrowed(|state| !state.over, |state| state.ticked[0]);
        let over = narrowed(|state| state.over, |state| state.ticked[0]);
        // Where it makes no difference it is said once; where nothing narrows, every word does.
        let over = match over {
            over if over == when => None,
            None if all.iter().any(|state| state.over) => {
                Some(words(&all, |state| state.over, |state| state.ticked[0]))
            }
            over => over,
        };
        let found = Condition { when, over, place: narrowed(|_| true, |state| state.place), pressed };
        match around.iter().find(|number| found.holds(&states[**number]) != self.drawn.contains(number)) {
            Some(number) => {
                Err(format!("{:?} shows by a rule that {found:?} does not say: {:?}", self.node, states[*number]))
            }
            None => Ok(found),
        }
    }

    /// Itself with everything in it, and when it shows.
    fn node(self, around: &BTreeSet<usize>, states: &[State], start: &State) -> Result<Node, String> {
        let condition = self.condition(around, states)?;
        let mut tag = match self.node {
            Node::Tag(tag) => tag,
            text @ Node::Text(_) if condition.is_bare() => return Ok(text),
            // A text can't say anything of itself.
            text @ Node::Text(_) => {
                Tag { name: "span".into(), key: None, attributes: Vec::new(), children: vec![text] }
            }
        };
        for part in self.inner {
            tag.children.push(part.node(&self.drawn, states, start)?);
        }
        let lists = [("data-when", &condition.when), ("data-over", &condition.over), ("data-where", &condition.place)];
        for (name, words) in lists {
            if let Some(words) = words {
                tag.set(name, &words.join(" "));
            }
        }
        if condition.pressed {
            tag.set("data-pressed", "");
        }
        if !condition.holds(start) {
            tag.set("hidden", "");
        }
        Ok(Node::Tag(tag))
    }
}

/// Merges the drawings of a screen; it is shown as it stands at `start`. Drawings that show more go first, so that the
/// order of what never shows together is theirs.
///
/// # Errors
/// Which part shows by a rule that can't be said.
pub fn merged(drawings: Vec<(State, Tag)>, start: &State) -> Result<Tag, String> {
    let (states, tags): (Vec<State>, Vec<Tag>) = drawings.into_iter().unzip();
    let mut nodes = tags.into_iter().map(Node::Tag).enumerate();
    let (_, first) = nodes.next().ok_or("nothing was drawn")?;
    let mut whole = Part::new(&first, 0);
    for (number, node) in nodes {
        whole.take(&node, number);
    }
    let all = (0..states.len()).collect();
    match whole.node(&all, &states, start)? {
        Node::Tag(tag) => Ok(tag),
        Node::Text(_) => Err("a text was drawn where a screen was expected".into()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn tag(name: &str, children: Vec<Node>) -> Tag {
        Tag { name: name.into(), key: None, attributes: Vec::new(), children }
    }

    fn drawing(ticked: &[&'static str], children: &[&str]) -> (State, Tag) {
        let children = children.iter().map(|text| Node::Text((*text).into())).collect();
        (State { ticked: ticked.to_vec(), over: false, place: "", pressed: false }, tag("p", children))
    }

    #[test]
    fn what_differs_says_when_it_shows() {
        let start = drawing(&["open"], &[]).0;
        let drawings = vec![
            drawing(&["a", "b"], &["always", "for a", "for b"]),
            drawing(&["open"], &["always"]),
            drawing(&["a"], &["always", "for a"]),
            drawing(&["b"], &["always", "for b"]),
        ];
        assert_eq!(
            merged(drawings, &start).unwrap().html(),
            "<p>always<span data-when=\"a\" hidden>for a</span><span data-when=\"b\" hidden>for b</span></p>"
        );
    }

    #[test]
    fn what_passed_and_is_over_may_have_a_list_of_its_own() {
        let start = drawing(&["open"], &[]).0;
        let mut drawings = vec![
            drawing(&["passes", "stays"], &["counts"]),
            drawing(&["open"], &[]),
            drawing(&["passes"], &["counts"]),
            drawing(&["stays"], &["counts"]),
            drawing(&["passes", "stays"], &["counts"]),
            drawing(&["open"], &[]),
            drawing(&["passes"], &[]),
            drawing(&["stays"], &["counts"]),
        ];
        for (state, _) in drawings.iter_mut().skip(4) {
            state.over = true;
        }
        assert_eq!(
            merged(drawings, &start).unwrap().html(),
            "<p><span data-when=\"passes stays\" data-over=\"stays\" hidden>counts</span></p>"
        );
    }

    #[test]
    fn a_rule_that_cannot_be_said_is_an_error() {
        let start = drawing(&["open"], &[]).0;
        let both_alone = vec![
            drawing(&["a", "b"], &["only together"]),
            drawing(&["open"], &[]),
            drawing(&["a"], &[]),
            drawing(&["b"], &[]),
        ];
        assert!(merged(both_alone, &start).unwrap_err().contains("only together"));
    }
}
