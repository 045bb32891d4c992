//! Merges many drawings of one screen, each for another state, into one markup that holds every part with the condition under which it
//! shows.
//!
//! A condition is made of attributes, all of which have to hold: one of the words in `data-when` is ticked (in `data-over`, if that is
//! there and the danger is past); the place is one of the words in `data-where`; the main button was pressed (`data-pressed`). A part
//! inside a hidden part is hidden with it. Merging fails, naming the part, if such conditions can't express when it shows.

use record::markup::{Node, Tag};
use std::collections::BTreeSet;

/// The answers for which a screen is drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct State {
    /// The words that are ticked: one or several.
    pub ticked: Vec<&'static str>,
    /// Whether the danger is said to be past.
    pub over: bool,
    /// The word of the place.
    pub place: &'static str,
    /// Whether the main button has been pressed.
    pub pressed: bool,
}

/// The condition under which a part shows; every field that is set has to hold.
#[derive(Clone, Debug, Default)]
struct Condition {
    when: Option<Vec<&'static str>>,
    /// Used instead of `when` where the danger is past.
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

/// The words of those states for which `of` holds, each once.
fn words(from: &[State], of: fn(&State) -> bool, word: fn(&State) -> &'static str) -> Vec<&'static str> {
    let mut words = Vec::new();
    for state in from.iter().filter(|state| of(state)) {
        if !words.contains(&word(state)) {
            words.push(word(state));
        }
    }
    words
}

/// A node, and the numbers of the drawings that it is part of.
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

    /// Merges the same part of another drawing into this one.
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

    /// The condition under which it shows, given that the part around it shows.
    fn condition(&self, around: &BTreeSet<usize>, states: &[State]) -> Result<Condition, String> {
        // Only states with a single ticked word tell which word decides.
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
        // `over` is left out where it equals `when`; where it would not narrow anything, it lists every word.
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

    /// The node with everything in it, and the attributes of its condition.
    fn node(self, around: &BTreeSet<usize>, states: &[State], start: &State) -> Result<Node, String> {
        let condition = self.condition(around, states)?;
        let mut tag = match self.node {
            Node::Tag(tag) => tag,
            text @ Node::Text(_) if condition.is_bare() => return Ok(text),
            // A text has no attributes: one with a condition gets a span.
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

/// Merges the drawings of a screen into one markup; parts that do not show in the state `start` are hidden at first. Drawings that show
/// more should come first: they set the order of parts that never show together.
///
/// # Errors
/// A part that shows under a condition that the attributes can't express.
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
