; Only the last pattern fits what another one does, and counts before it.

(comment) @comment
(text) @string
(number) @constant.numeric
(unit) @type.builtin
[(clock) (date) (weekday) (zone)] @constant
[(purpose) (code)] @constant.builtin
[(name) (counted)] @variable
(new_name) @function
(_ kind: (description) @type)

; What opens a block.
["cook" "crew" "dish" "dwell" "food" "ingredient" "kit" "menu" "phase" "serve"] @keyword

; What a clause goes by.
["about" "above" "adapted" "air" "allow" "any" "asleep" "away" "bagged" "because" "becomes" "below"
 "between" "collect" "contains" "cooked" "cools" "core" "covered" "depth" "do" "down" "elevation"
 "end" "every" "expect" "fan" "fills" "frozen" "ground" "guests" "hand" "hands-on" "holds"
 "injected" "intact" "late" "least" "less" "liquid" "loss" "measures" "moisture" "more"
 "nitrite" "note" "number" "oil" "ph" "plate" "preheat" "programmable" "rest" "room" "rules"
 "salt" "same" "sealed" "serves" "shape" "shelves" "smoke" "steam" "still" "surface" "swing" "takes"
 "taste" "tenderised" "tenderized" "thickness" "trim" "unattended" "uncovered" "until" "up" "use"
 "vacuum" "vented" "vulnerable" "water" "weight" "within" "wrapped" "yield"] @variable.other.member

; Small words, which are never a name.
["after" "all" "and" "at" "before" "by" "each" "ends" "for" "from" "half" "in" "is" "look" "of" "on"
 "or" "serving" "starts" "the" "to" "when" "with"] @keyword.operator

["±" "+" "-" "–" "—"] @operator
"," @punctuation.delimiter
["(" ")"] @punctuation.bracket

; Small words that a clause goes by.
[(for "for" @variable.other.member)
 (for_up_to "for" @variable.other.member)
 (for_at_least "for" @variable.other.member)
 (vulnerable_guests "for" @variable.other.member)
 (supplier "from" @variable.other.member)
 (from_to "from" @variable.other.member)
 (at ["at" "on"] @variable.other.member)
 (at_end_do "at" @variable.other.member)
 (at_core_do "at" @variable.other.member)
 (by "by" @variable.other.member)
 (with "with" @variable.other.member)
 (starts_at ["starts" "at"] @variable.other.member)
 (order ["starts" "ends"] @variable.other.member)
 (look_in ["look" "in"] @variable.other.member)
 (on_hand "on" @variable.other.member)
 (to_taste "to" @variable.other.member)]
