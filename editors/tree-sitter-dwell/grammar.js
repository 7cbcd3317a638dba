// The dwell language, edition 1, for editors.
//
// It follows grammar/dwell.pest: a file is lines, a line that cannot be read is `unreadable` as a whole and changes
// nothing around it. Every line is tried as what it should be and as an unreadable one, side by side; the second
// counts only where the first fails. Where lines start and end, and whether one starts with the word of a block, is
// settled first, by src/scanner.c.

/// <reference types="tree-sitter-cli/dsl" />
const { BLOCKS, SMALL, COVERS, NAMES_TOO, PURPOSES, UNITS, WEEKDAYS } = require('./words');

/** The word in any letter case (of ASCII alone, as in the compiler). */
const anyCase = word =>
  [...word].map(c => (/[a-z]/.test(c) ? `[${c}${c.toUpperCase()}]` : c)).join('');
/** The same where it is no keyword but a name, a unit or just there. */
const bare = word => new RegExp(anyCase(word));
const kw = word => alias(bare(word), word);
const oneOf = words => new RegExp(words.map(anyCase).join('|'));
const and = (rule, $) => seq(rule, repeat(seq($._and, rule)));

// What shows as nothing, and the ends of lines that the scanner leaves (at the end of the file).
const BLANK =
  /[\u0001-\u0020\u007f-\u00a0\u00ad\u061c\u1680\u2000-\u200b\u200e-\u200f\u2028-\u202f\u205f-\u206f\u3000\ufeff]/;
const VULGAR = '[½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒]';
const DIGITS = new RegExp(`\\d+(\\.\\d+|/\\d+| *${VULGAR}| +\\d+/\\d+)?|${VULGAR}|\\.\\d+`);
const minus = alias(/[-−]/, '-');

module.exports = grammar({
  name: 'dwell',

  word: $ => $._word,
  extras: $ => [BLANK, $.comment],
  externals: $ => [
    $.comment, $._head_start, $._clause_start, $._bad_head_start, $._bad_clause_start, $._line_end,
    $._block_start, $._block_end,
  ],
  conflicts: $ => [
    [$._read_head, $._unread_head],
    [$._read_clauses, $._unread_clauses],
    [$._range],
    [$.measure],
  ],
  reserved: { small: _ => SMALL.map(bare), none: _ => [] },
  supertypes: $ => [$.head, $.clause],

  rules: {
    source_file: $ => seq(repeat(seq($._clause_line, choice($._line_end, $._block_end))), repeat($.block)),
    // The two readings of a line come together at its end. A block starts and ends with signs of its own, where there is
    // one reading alone: so it is taken over as it was when the text changes elsewhere.
    block: $ => seq($._block_start, $._head_line, repeat(seq($._line_end, $._clause_line)), $._block_end),

    _head_line: $ => choice(
      seq($._read_head, $.head, repeat(seq(',', $.clause))),
      prec.dynamic(-1, seq($._unread_head, $.unreadable)),
      seq($._bad_head_start, $.unreadable),
    ),
    _clause_line: $ => choice(
      seq($._read_clauses, $.clause, repeat(seq(',', $.clause))),
      prec.dynamic(-1, seq($._unread_clauses, $.unreadable)),
      seq($._bad_clause_start, $.unreadable),
    ),
    _read_head: $ => $._head_start,
    _unread_head: $ => $._head_start,
    _read_clauses: $ => $._clause_start,
    _unread_clauses: $ => $._clause_start,

    // Whatever stands on the line. Its start has to be what the start of a readable line can be, for both to be tried.
    unreadable: $ => prec.right(seq(choice($._first, $._any), repeat($._any))),
    _first: $ => choice(...[...BLOCKS, ...SMALL, ...COVERS, ...NAMES_TOO].map(bare), $._digits, $.joined, /[-−]/, '+'),
    _any: $ => choice(reserved('none', $._word), $.text, $._unclosed, ',', $._other),

    // ------------------------------------------------------------------------------- small parts
    unit: _ => choice(
      oneOf(UNITS),
      bare('in'),
      token(choice(
        '%', '℃', '℉', /[°º˚]( *[cCfF]\p{L}*)?/, /[fF][lL]\.? *[oO][zZ]/, /[pP][eE][rR] +[cC][eE][nN][tT]/,
        new RegExp(`${anyCase('deg')}(${anyCase('ree')}[sS]?)?\\.? +(${
          ['celsius', 'centigrade', 'fahrenheit', 'c', 'f'].map(anyCase).join('|')})`),
      )),
    ),
    _other: _ => token(prec(-1, /[^\s,"“”„‟]/)),
    _unclosed: _ => token(prec(-1, /["“”„‟][^\r\n]*/)),
    text: _ => token(choice(/"[^"\r\n]*"/, /[“”„‟][^”“‟\r\n]*[”“‟]/)),
    name: $ => $._word,
    // Of what is there from here on.
    new_name: $ => $._word,
    _later_name: $ => choice($.name, alias($._rest, $.name)),
    _rest: _ => bare('rest'),
    description: $ => prec.right(repeat1($._described)),
    _described: $ => choice(
      reserved('none', $._word), $._digits, bare('to'), /[-−]/, '–', '—', '+', '±', '(', ')', $._purpose, $._other,
    ),

    _and: _ => kw('and'),
    _is: $ => seq(kw('is'), field('kind', $.description)),
    _the: _ => kw('the'),

    // ---------------------------------------------------------------------------------- measures
    number: $ => prec(1, choice($._digits, seq(choice(minus, '+'), token.immediate(DIGITS)))),
    _digits: _ => token(DIGITS),
    // Also a word that goes on with the clause where there is a unit: `up to 15 min late`.
    counted: $ => choice($._word, bare('late'), bare('do')),
    // `1h30min`: a word may hold figures, so this is one token.
    joined: _ => token(/\d+(\.\d+)?\p{L}+(\d+(\.\d+)?\p{L}+)+/),
    _figure: $ => prec.right(choice(seq($.number, optional(choice($.unit, $.counted))), alias($.joined, $.number))),
    _further_figure: $ =>
      prec.right(seq(alias($._digits, $.number), optional(choice($.unit, $.counted)))),
    _figures: $ => prec.right(seq($._figure, repeat($._further_figure))),
    _to: _ => choice(kw('to'), minus, '–', '—'),
    // Behind an amount, `to taste` and `(drained)` are a description: which of the two it is shows further on.
    _range: $ => choice($._figures, prec.dynamic(1, seq($._figures, $._to, $._figures))),
    twin: $ => prec.dynamic(1, seq('(', $._range, ')')),
    tolerance: $ => seq($._plus_minus, $._figures),
    _plus_minus: _ => choice('±', alias(token(/\+(\/-|-|\/−)/), '±')),
    measure: $ => seq($._range, optional($.twin), optional($.tolerance), optional($.twin)),

    // ------------------------------------------------------------------------------- clock times
    weekday: _ => oneOf(WEEKDAYS),
    date: _ => token(/\d{4}-\d{1,2}-\d{1,2}/),
    clock: _ => choice(
      token(choice(/\d{1,2}[:.hH]\d{2}( *[aApP](\.[mM]\.|[mM]))?/, /\d{1,2} *[aApP](\.[mM]\.|[mM])/)),
      bare('noon'), bare('midnight'),
    ),
    zone: _ => token(/\p{L}[\p{L}0-9\/_+-]*/),
    _when: $ => choice($._on_when, $._day_time),
    _on_when: $ => seq(kw('on'), $._day_time),
    _day_time: $ => seq(
      optional(seq(choice($.weekday, $.date), optional(kw('at')))),
      $.clock,
      optional(seq(kw('in'), $.zone)),
    ),
    _on_day: $ => seq(kw('on'), choice($.weekday, $.date)),

    // ------------------------------------------------------------------------------------ blocks
    head: $ => choice(
      $.edition_head, $.cook_head, $.menu_head, $.kit_from_head, $.kit_head, $.food_head, $.ingredient_head,
      $.phase_head, $.serve_head, $.serve_menu_head, $.crew_head, $.dish_head,
    ),
    edition_head: $ => seq(kw('dwell'), $.number),
    cook_head: $ => seq(kw('cook'), field('title', $.text)),
    menu_head: $ => seq(kw('menu'), field('title', $.text)),
    kit_from_head: $ => seq(kw('kit'), kw('from'), field('file', $.text)),
    kit_head: $ => seq(kw('kit'), field('name', $.new_name), $._is),
    food_head: $ => seq(kw('food'), field('name', $.new_name), choice($._is, seq(kw('is'), field('kind', $.text)))),
    ingredient_head: $ => seq(kw('ingredient'), field('name', $.new_name), kw('is'), choice(
      seq($.measure, optional($.description), optional($.text)),
      $.description,
      $.text,
    )),
    phase_head: $ => seq(
      kw('phase'), field('name', $.new_name), optional(seq(kw('is'), choice($.purpose, field('kind', $.description)))),
    ),
    purpose: $ => prec(1, $._purpose),
    _purpose: _ => new RegExp(PURPOSES.map(words => anyCase(words).replace(' ', ' +')).join('|')),
    serve_head: $ => seq(kw('serve'), $._parts),
    serve_menu_head: $ => seq(kw('serve'), choice(seq(kw('at'), $._when), $._on_when)),
    crew_head: _ => kw('crew'),
    dish_head: $ => seq(kw('dish'), field('file', $.text), optional(seq(kw('for'), $.measure))),

    // ----------------------------------------------------------------------------------- clauses
    clause: $ => choice(
      $.serves, $.rules, $.about, $.by, $.adapted_from, $.measures, $.elevation, $.vulnerable_guests,
      $.setting, $.swing, $.preheat, $.cools_down, $.shelves, $.holds, $.moisture, $.room, $.vented, $.programmable,
      $.fan, $.still, $.amount, $.thickness, $.depth, $.shape, $.starts_at, $.frozen, $.cooked, $.trim_loss,
      $.cooked_yield, $.structure, $.contains, $.supplier, $.on_hand, $.same_for_any_number, $.to_taste, $.nitrite,
      $.place, $.becomes, $.cover, $.with, $.smoke, $.for, $.for_up_to, $.for_at_least, $.takes, $.until, $.within,
      $.check, $.use, $.collect, $.do, $.at_end_do, $.at_core_do, $.every_do, $.hands_on, $.look_in, $.unattended,
      $.order, $.fills, $.note, $.allow, $.at, $.up_to_late, $.from_to, $.guests, $.asleep, $.away,
    ),

    about: $ => seq(kw('about'), $.text),
    by: $ => seq(kw('by'), $.text),
    adapted_from: $ => seq(kw('adapted'), kw('from'), $.text),
    supplier: $ => seq(kw('from'), $.text),
    note: $ => seq(kw('note'), $.text),
    rules: $ => seq(kw('rules'), alias($.name, $.code)),
    measures: $ => seq(kw('measures'), alias($.name, $.code)),
    shape: $ => seq(kw('shape'), alias($.name, $.code)),
    serves: $ => seq(kw('serves'), $.measure, optional(seq(kw('with'), $.measure, kw('each')))),

    ...Object.fromEntries(
      ['elevation', 'preheat', 'shelves', 'holds', 'moisture', 'room', 'thickness', 'depth', 'nitrite', 'within', 'fills']
        .map(word => [word, $ => seq(kw(word), $.measure)]),
    ),
    setting: $ => seq(choice(...['air', 'water', 'steam', 'oil', 'plate', 'liquid'].map(kw)), $.measure),
    swing: $ => seq(kw('swing'), optional($._plus_minus), $._figures),
    cools_down: $ => seq(kw('cools'), kw('down'), $.measure),
    trim_loss: $ => seq(kw('trim'), kw('loss'), $.measure),
    cooked_yield: $ => seq(kw('cooked'), kw('yield'), $.measure),
    starts_at: $ => seq(kw('starts'), kw('at'), $.measure),
    on_hand: $ => seq(kw('on'), alias($._hand, 'hand'), $.measure),
    vulnerable_guests: _ => seq(kw('for'), kw('vulnerable'), kw('guests')),
    amount: $ => seq($.measure, optional(seq(kw('of'), $.measure)), optional(kw('each'))),

    ...Object.fromEntries(
      ['vented', 'programmable', 'fan', 'still', 'frozen', 'cooked', 'unattended'].map(word => [word, _ => kw(word)]),
    ),
    structure: _ => choice(...['intact', 'ground', 'tenderised', 'tenderized', 'injected'].map(kw)),
    same_for_any_number: _ => seq(kw('same'), kw('for'), kw('any'), kw('number')),
    to_taste: _ => seq(kw('to'), kw('taste')),
    contains: $ => seq(kw('contains'), and(alias($.name, $.code), $)),

    // Which food, and where.
    place: $ => choice(
      seq($._leading_parts, choice(kw('in'), kw('on')), optional($._the), field('place', $.name)),
      seq(choice(kw('in'), kw('on')), optional($._the), field('place', choice($.name, alias($._hand, $.name)))),
    ),
    _hand: _ => bare('hand'),
    _leading_parts: $ => seq(choice(alias($._leading_part, $.part), $.part), repeat(seq($._and, $.part))),
    _leading_part: $ => alias($._leading_name, $.name),
    _leading_name: _ => choice(...NAMES_TOO.filter(word => word !== 'rest').map(bare)),
    _parts: $ => and($.part, $),
    part: $ => choice(
      seq(choice(kw('all'), kw('half')), optional(kw('of')), optional($._the), $._later_name),
      seq(optional($._the), alias($._rest, 'rest'), kw('of'), optional($._the), $._later_name),
      $._amount_of,
      seq(optional($._the), $._later_name),
    ),
    _amount_of: $ => seq($.measure, kw('of'), optional($._the), $.name),
    becomes: $ => seq(kw('becomes'), field('name', $.new_name), optional($._is)),
    use: $ => seq(kw('use'), and(choice($.part, alias($.measure, $.part)), $)),
    collect: $ => seq(
      kw('collect'), $.measure, kw('of'), field('name', $.new_name),
      optional(choice($._is, seq(kw('from'), optional($._the), field('parent', $.name)))),
    ),
    with: $ => seq(kw('with'), $.measure, kw('of'), $.name),
    smoke: $ => seq(kw('smoke'), kw('from'), choice($._amount_of, seq(optional($._the), $.name))),
    cover: $ => seq(
      choice(...COVERS.filter(word => word !== 'vacuum').map(kw), seq(kw('vacuum'), kw('bagged'))),
      optional(seq(kw('in'), optional($._the), $.name)),
    ),

    // How long, and until when.
    for: $ => seq(kw('for'), $.measure),
    for_up_to: $ => seq(kw('for'), kw('up'), kw('to'), $.measure),
    for_at_least: $ => seq(kw('for'), $._at_least, $.measure),
    _at_least: _ => seq(kw('at'), kw('least')),
    takes: $ => seq(kw('takes'), $.measure, optional(kw('each'))),
    until: $ => seq(kw('until'), and(choice($.text, seq($._checked, $.measure)), $)),
    _checked: _ => choice(...['core', 'surface', 'weight', 'ph', 'salt'].map(kw)),
    check: $ => seq(
      optional(kw('expect')), $._checked, $.measure,
      optional(seq(kw('or'), choice(...['above', 'below', 'more', 'less'].map(kw)))),
    ),
    order: $ => seq(choice(kw('starts'), kw('ends')), choice(
      seq(choice(...['when', 'after', 'before', 'by'].map(kw)), $._moment),
      seq(optional($._at_least), $.measure, choice(kw('before'), kw('after')), $._moment),
      seq(kw('at'), $._when),
      $._on_day,
    )),
    _moment: $ => choice($._on_day, $._when, kw('serving'), seq($.name, choice(kw('starts'), kw('ends')))),

    // Who does what.
    do: $ => seq(kw('do'), $.text),
    at_end_do: $ => seq(kw('at'), kw('end'), kw('do'), $.text),
    at_core_do: $ => seq(kw('at'), kw('core'), $.measure, kw('do'), $.text),
    every_do: $ => seq(kw('every'), $.measure, kw('do'), $.text),
    hands_on: $ => seq(kw('hands-on'), optional($.measure)),
    look_in: $ => seq(kw('look'), kw('in'), kw('every'), $.measure),
    allow: $ => seq(kw('allow'), alias($.name, $.code), optional(seq(kw('because'), $.text))),
    asleep: $ => seq(kw('asleep'), $.clock, $._to, $.clock),
    away: $ => seq(kw('away'), $.clock, $._to, $.clock),

    // When people eat.
    at: $ => choice(seq(kw('at'), $._when), $._on_when),
    up_to_late: $ => seq(kw('up'), kw('to'), $.measure, kw('late')),
    from_to: $ => seq(kw('from'), $._when, $._to, $._when),
    guests: $ => seq(kw('guests'), kw('between'), $._when, $._and, $._when),

    // Last, so that of two readings as long as each other a keyword is the one taken.
    _word: _ => /\p{L}[\p{L}\p{M}\p{N}\u200c\u200d-]*/,
  },
});
