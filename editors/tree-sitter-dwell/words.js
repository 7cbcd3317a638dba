// Words that the language itself fixes. Names of foods and kinds of kit are data, and stand nowhere here.

/** What opens a block. */
const BLOCKS = ['dwell', 'cook', 'kit', 'food', 'ingredient', 'phase', 'serve', 'crew', 'menu', 'dish'];

/** Never a name. */
const SMALL = [
  'after', 'all', 'and', 'at', 'before', 'by', 'each', 'ends', 'for', 'from', 'half', 'in', 'is', 'look', 'of', 'on',
  'or', 'serving', 'starts', 'the', 'to', 'when', 'with',
];

/** What food may be covered with; none of them heads a line as a name. */
const COVERS = ['uncovered', 'covered', 'wrapped', 'sealed', 'bagged', 'vacuum'];

/** Other words that start a clause: each is a name where `in`, `on` or `and` follows it. */
const NAMES_TOO = [
  'about', 'adapted', 'air', 'allow', 'asleep', 'away', 'becomes', 'collect', 'contains', 'cooked', 'cools', 'core',
  'depth', 'do', 'elevation', 'every', 'expect', 'fan', 'fills', 'frozen', 'ground', 'guests', 'hands-on', 'holds',
  'injected', 'intact', 'liquid', 'measures', 'moisture', 'nitrite', 'note', 'oil', 'ph', 'plate', 'preheat',
  'programmable', 'rest', 'room', 'rules', 'salt', 'same', 'serves', 'shape', 'shelves', 'smoke', 'steam', 'still',
  'surface', 'swing', 'takes', 'tenderised', 'tenderized', 'thickness', 'trim', 'unattended', 'until', 'up', 'use',
  'vented', 'water', 'weight', 'within',
];

const PURPOSES = [
  'prep', 'thaw', 'cure', 'ferment', 'cook', 'rest', 'hot hold', 'cool', 'cold hold', 'freeze', 'reheat',
];

/** Units of one word, but for `in`, which is a small word too. */
const UNITS = [
  'c', 'celsius', 'centigrade', 'degc', 'f', 'fahrenheit', 'degf',
  's', 'sec', 'secs', 'second', 'seconds', 'min', 'mins', 'minute', 'minutes', 'h', 'hr', 'hrs', 'hour', 'hours',
  'd', 'day', 'days', 'week', 'weeks',
  'mg', 'g', 'gr', 'gram', 'grams', 'gramme', 'grammes', 'kg', 'kilo', 'kilos', 'kilogram', 'kilograms',
  'oz', 'ounce', 'ounces', 'lb', 'lbs', 'pound', 'pounds',
  'ml', 'millilitre', 'millilitres', 'milliliter', 'milliliters', 'cl', 'dl', 'l', 'litre', 'litres', 'liter', 'liters',
  'tsp', 'tsps', 'teaspoon', 'teaspoons', 'tbsp', 'tbsps', 'tablespoon', 'tablespoons', 'floz',
  'cup', 'cups', 'pint', 'pints',
  'mm', 'millimetre', 'millimetres', 'millimeter', 'millimeters',
  'cm', 'centimetre', 'centimetres', 'centimeter', 'centimeters', 'm', 'metre', 'metres', 'meter', 'meters',
  'inch', 'inches', 'ft', 'foot', 'feet', 'percent',
];

const WEEKDAYS = [
  'monday', 'mon', 'tuesday', 'tues', 'tue', 'wednesday', 'weds', 'wed', 'thursday', 'thurs', 'thur', 'thu',
  'friday', 'fri', 'saturday', 'sat', 'sunday', 'sun',
];

module.exports = { BLOCKS, SMALL, COVERS, NAMES_TOO, PURPOSES, UNITS, WEEKDAYS };
