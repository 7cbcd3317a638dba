//! A cook that is longer than any real one.

/// The flagship's phases again and again, in one file of at least so many lines.
pub fn long_cook(lines: usize) -> String {
    let mut text = String::from(
        "cook \"Long\"\n  rules us-food-code\n\nkit oven is oven\nkit bench is bench\nkit probe is probe thermometer\n\nfood joint is pork shoulder\n  3 kg\n  thickness 11 cm\n\ningredient salt is 900 kg salt\n",
    );
    let mut count = text.lines().count();
    let mut nth = 0;
    while count < lines {
        nth += 1;
        let block = format!(
            "\nphase season-{nth} is prep\n  joint on bench\n  takes 10 min to 20 min, hands-on\n  use 4 g of salt\n  do \"Salt every face first.\"\n\nphase roast-{nth} is cook\n  joint in oven\n  air 110 °C (230 °F)\n  uncovered\n  until core 84 °C, takes 2 h to 4 h\n  every 90 min do \"Look for juice pooling on top.\"\n  expect core 55 °C to 88 °C\n"
        );
        count += block.lines().count();
        text.push_str(&block);
    }
    text.push_str("\nserve joint\n  at 18:30\n");
    text
}
