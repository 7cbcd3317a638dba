//! For how many a cook is.

use crate::cook::Cook;

/// "16 people, 170 g each"; `None` where the file does not say.
pub fn people(cook: &Cook) -> Option<String> {
    let serves = cook.serves.as_ref()?;
    let people = if serves.people == 1 { "1 person".to_owned() } else { format!("{} people", serves.people) };
    let each = serves.each.as_ref().map_or_else(String::new, |each| format!(", {} each", each.value.show()));
    Some(people + &each)
}
