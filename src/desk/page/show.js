// What the desk shows: findings under the text and in it, and what comes of it.
'use strict';

const at = (id) => document.getElementById(id);
const text = at('text');
// The text that what is shown was found in, and what was found.
let shown = { text: '', findings: [] };

// Places come as a line and UTF-16 units in it.
function offsets(written) {
  const starts = [0];
  for (let i = written.indexOf('\n'); i >= 0; i = written.indexOf('\n', i + 1)) starts.push(i + 1);
  return ({ line, unit }) => Math.min((starts[line] ?? written.length) + unit, written.length);
}

function element(tag, words, className) {
  const made = document.createElement(tag);
  if (words) made.textContent = words;
  if (className) made.className = className;
  return made;
}

// What stands between backticks is to be typed.
function sentence(words, tag = 'p') {
  const line = element(tag);
  words.split('`').forEach((part, n) => line.append(n % 2 ? element('code', part) : part));
  return line;
}

const here = (finding) => !finding.elsewhere;

// Underlines, in a copy of the text that lies behind it. Where findings overlap, the first one is drawn.
function underline() {
  const written = text.value;
  const offset = offsets(written);
  const pieces = document.createDocumentFragment();
  let done = 0;
  if (shown.text === written) {
    for (const finding of shown.findings.filter(here)) {
      const start = offset(finding.start);
      const end = Math.max(offset(finding.end), start + 1);
      if (start < done) continue;
      pieces.append(written.slice(done, start), element('mark', written.slice(start, end), finding.severity));
      done = end;
    }
  }
  // The last line of a box that ends in a line end is only as high as in the other if something stands on it.
  pieces.append(written.slice(done) + '\n');
  at('marks').replaceChildren(pieces);
  follow();
}

function follow() {
  at('marks').scrollTop = text.scrollTop;
  at('marks').scrollLeft = text.scrollLeft;
}

function goTo(finding) {
  const offset = offsets(text.value);
  text.focus();
  text.setSelectionRange(offset(finding.start), offset(finding.end));
  const line = text.value.slice(0, offset(finding.start)).split('\n').length - 1;
  const height = parseFloat(getComputedStyle(text).lineHeight);
  text.scrollTop = Math.max(0, line * height - text.clientHeight / 3);
}

const SORTS = { error: 'Wrong', warning: 'Look at this', note: 'By the way' };

function row(finding, current) {
  const item = element('li');
  const place = here(finding) ? `Line ${finding.start.line + 1}` : `${finding.elsewhere}, line ${finding.start.line + 1}`;
  const head = element('p');
  head.append(element('span', SORTS[finding.severity], `sort ${finding.severity}`), ' · ');
  if (here(finding)) {
    const button = element('button', place, 'place');
    button.type = 'button';
    button.addEventListener('click', () => goTo(finding));
    head.append(button);
  } else {
    head.append(place);
  }
  item.append(head, sentence(finding.message), sentence(finding.remedy));
  if (finding.cure) {
    const button = sentence(finding.cure.text, 'button');
    button.type = 'button';
    button.addEventListener('click', () => current() && write(finding.cure));
    item.append(button);
  }
  item.append(why(finding.code));
  return item;
}

function why(code) {
  const more = element('details');
  more.append(element('summary', `Why (${code})`));
  more.addEventListener('toggle', async () => {
    if (!more.open || more.children.length > 1) return;
    const answer = await ask(`explain/${code}`);
    more.append(element('pre', await answer.text()));
  });
  return more;
}

function show(written, found) {
  shown = { text: written, findings: found.findings };
  at('summary').textContent = `Found: ${found.summary}.`;
  at('findings').replaceChildren(...found.findings.map((finding) => row(finding, () => text.value === written)));
  underline();
}

function picture(image, svg) {
  if (image.src.startsWith('blob:')) URL.revokeObjectURL(image.src);
  image.hidden = !svg;
  if (svg) image.src = URL.createObjectURL(new Blob([svg], { type: 'image/svg+xml' }));
  else image.removeAttribute('src');
}

function old(is) {
  for (const view of ['plan', 'curve', 'sheet']) at(view).classList.toggle('old', is);
}

function draw(found) {
  at('nothing').hidden = !found.nothing;
  at('nothing').textContent = found.nothing ?? '';
  // A plan of an older text is worse than none.
  picture(at('plan-picture'), found.plan);
  at('plan-words').textContent = found.plan_in_words ?? '';
  picture(at('curve-picture'), found.curve);
  const sheet = at('sheet-page');
  for (const part of [sheet, at('sheet-alone')]) part.hidden = !found.sheet;
  if (found.sheet) {
    sheet.src = `sheet/${found.sheet}`;
    at('sheet-alone').href = `sheet/${found.sheet}`;
  } else {
    sheet.removeAttribute('src');
  }
  old(false);
}
