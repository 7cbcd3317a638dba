//! The buying list on paper.

use super::{BuyList, ForCook, Line, figure, less};
use crate::cook::Amount;
use crate::output::layout::paragraph;
use crate::quantity::{Mass, Written, plain_number};

/// The list on paper.
pub fn text(list: &BuyList) -> String {
    let mut page = String::new();
    if let [one] = list.cooks.as_slice() {
        paragraph(&mut page, 0, 4, &format!("To buy for {}", one.words()));
    } else {
        page.push_str("To buy for\n");
        for (n, cook) in list.cooks.iter().enumerate() {
            paragraph(&mut page, 2, 6, &format!("[{}] {}", n + 1, cook.words()));
        }
    }
    let lines = || list.suppliers.iter().flat_map(|supplier| &supplier.lines);
    for supplier in &list.suppliers {
        let lines: Vec<&Line> = supplier.lines.iter().filter(|line| !line.is_there()).collect();
        if lines.is_empty() {
            continue;
        }
        page.push('\n');
        match &supplier.supplier {
            Some(name) => paragraph(&mut page, 0, 4, &format!("From {name}")),
            None if list.suppliers.len() > 1 => page.push_str("No supplier named\n"),
            None => {}
        }
        for line in lines {
            line.write(&mut page, &list.cooks);
        }
    }
    if lines().any(Line::is_there) {
        page.push_str("\nOn hand, nothing to buy\n");
        for line in lines().filter(|line| line.is_there()) {
            line.write(&mut page, &list.cooks);
        }
    }
    if lines().next().is_none() {
        page.push_str("\nNothing.\n");
    }
    if list.predicts() {
        page.push('\n');
        paragraph(&mut page, 0, 0, PREDICTED);
    }
    page
}

/// Stands where something is said of what is left.
pub(in crate::output) const PREDICTED: &str =
    "What is left after trimming and cooking is predicted from the shares in the file.";

impl BuyList {
    pub(in crate::output) fn predicts(&self) -> bool {
        let mut lines = self.suppliers.iter().flat_map(|supplier| &supplier.lines);
        lines.any(|line| line.leaves_trimmed_kg.is_some() || line.leaves_cooked_kg.is_some())
    }
}

impl ForCook {
    pub(in crate::output) fn words(&self) -> String {
        match self.serves {
            Some(people) => format!("{} (for {people})", self.title),
            None => self.title.clone(),
        }
    }
}

impl Line {
    /// All of it is on hand.
    pub(in crate::output) fn is_there(&self) -> bool {
        match (&self.sum, &self.had) {
            (Some(sum), Some(had)) => less(sum, had).is_some_and(|left| figure(&left) == 0.0),
            _ => false,
        }
    }

    fn write(&self, page: &mut String, cooks: &[ForCook]) {
        paragraph(page, 2, 6, &self.words(cooks));
        for more in self.more() {
            paragraph(page, 6, 6, &more);
        }
    }

    /// "2 pieces of 3.2 kg (6.4 kg) pork shoulder"; with the numbers of the cooks that need it where there are several.
    pub(in crate::output) fn words(&self, cooks: &[ForCook]) -> String {
        let mut said = self.amount();
        if !said.is_empty() {
            said.push(' ');
        }
        // The description of what is counted begins with what is counted: "onions, quartered".
        said.push_str(&self.description);
        if self.sum.is_none() {
            said.push_str(", to taste");
        }
        if self.frozen {
            said.push_str(", frozen");
        }
        if self.cooked {
            said.push_str(", cooked");
        }
        if !self.contains.is_empty() {
            said.push_str(&format!(" (contains {})", self.contains.join(", ")));
        }
        if cooks.len() > 1 {
            // Which of the cooks above need it.
            let numbered = cooks.iter().enumerate().filter(|(_, cook)| self.cooks.contains(&cook.title));
            let numbers: Vec<String> = numbered.map(|(n, _)| (n + 1).to_string()).collect();
            said.push_str(&format!("  [{}]", numbers.join(", ")));
        }
        said
    }

    /// "70 g needed, 40 g on hand", "leaves about 3.5 kg cooked".
    pub(in crate::output) fn more(&self) -> Vec<String> {
        let mut more = Vec::new();
        if let (Some(sum), Some(had)) = (&self.sum, &self.had) {
            more.push(format!("{} needed, {} on hand", sum.show_enough(), had.show()));
        }
        let leaves = [(self.leaves_trimmed_kg, "trimmed"), (self.leaves_cooked_kg, "cooked")];
        let leaves: Vec<String> = leaves
            .iter()
            .filter_map(|(kg, how)| {
                let mass = Mass::from_kg((*kg)?).written_in(self.written());
                Some(format!("about {} {how}", mass.show_roughly()))
            })
            .collect();
        if !leaves.is_empty() {
            more.push(format!("leaves {}", leaves.join(", ")));
        }
        more
    }

    fn written(&self) -> Written {
        match &self.sum {
            Some(Amount::Mass(mass)) => mass.written(),
            _ => Written::Metric,
        }
    }

    /// "2 pieces of 3.2 kg (6.4 kg)", "70 g".
    fn amount(&self) -> String {
        match (&self.sum, &self.had, &self.pieces) {
            (Some(sum), None, Some(pieces)) => {
                let count = plain_number(pieces.count, 2);
                let said = format!("{count} {} of {}", pieces.counted, pieces.each_text);
                if pieces.count == 1.0 { said } else { format!("{said} ({})", sum.show_enough()) }
            }
            (Some(sum), Some(had), _) if !self.is_there() => bare(&less(sum, had).unwrap_or(sum.clone())),
            (Some(sum), _, _) => bare(sum),
            (None, _, _) => String::new(),
        }
    }
}

/// An amount to stand before its description, which says what is counted.
fn bare(amount: &Amount) -> String {
    match amount {
        Amount::Count { number, .. } => plain_number(*number, 2),
        other => other.show_enough(),
    }
}
