// The desk: sends what is written to the program that served this page, and shows what comes back.
'use strict';

const at = (id) => document.getElementById(id);
const text = at('text');
// What is cheap to find out follows every key; plan and pictures wait for a rest.
const SOON = 120;
const AT_REST = 600;

// The mark of the file as it was last read or saved, and the text that stood in it then.
let mark = null;
let saved = '';
let shown = { text: '', findings: [] };

async function ask(what, options = {}) {
  let answer;
  try {
    answer = await fetch(what, { cache: 'no-store', credentials: 'omit', ...options });
  } catch {
    trouble('The program behind this page does not answer. It may have been ended. What stands here is not lost as long as '
      + 'this page stays open: copy it, start `dwell desk` again, and paste it there.');
    throw new Error('no answer');
  }
  if (!answer.ok && answer.status !== 409) {
    trouble(await answer.text());
    throw new Error(`status ${answer.status}`);
  }
  trouble('');
  return answer;
}

const send = (what, body) =>
  ask(what, { method: 'POST', body, headers: { 'Content-Type': 'text/plain; charset=utf-8' } });

function trouble(words) {
  at('trouble').textContent = words;
  at('trouble').hidden = !words;
}

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

// As if it had been typed, so that it can be taken back as what is typed can.
function replace(start, end, words) {
  text.focus();
  text.setSelectionRange(start, end);
  const typed = words ? document.execCommand('insertText', false, words) : document.execCommand('delete');
  if (!typed) text.setRangeText(words, start, end, 'end');
}

function write(cure) {
  const offset = offsets(text.value);
  for (const edit of [...cure.edits].reverse()) replace(offset(edit.start), offset(edit.end), edit.text);
  changed();
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

let asked = 0;
async function findings() {
  const written = text.value;
  const mine = (asked += 1);
  const answer = await send('findings', written);
  const found = await answer.json();
  // What was found with cures, after the plan was made, says more of the same text.
  if (mine === asked && text.value === written && !(drawn === written)) show(written, found);
}

// One at a time, the newest text next.
let drawing = false;
let drawn = null;
async function views() {
  if (drawing || drawn === text.value) return;
  drawing = true;
  const written = text.value;
  at('working').textContent = 'Working out the plan and the temperatures …';
  try {
    const found = await (await send('views', written)).json();
    if (text.value === written) {
      drawn = written;
      asked += 1;
      show(written, found);
      draw(found);
      at('working').textContent = found.nothing ? '' : 'All of this is predicted. A probe decides, not a plan.';
    }
  } catch {
    at('working').textContent = '';
    return;
  } finally {
    drawing = false;
  }
  if (drawn !== text.value) later();
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

let soon;
let rest;
function later() {
  clearTimeout(rest);
  rest = setTimeout(() => views().catch(() => {}), AT_REST);
}

function changed() {
  underline();
  state();
  if (drawn !== text.value) old(true);
  clearTimeout(soon);
  soon = setTimeout(() => findings().catch(() => {}), SOON);
  later();
}

const dirty = () => text.value !== saved;

function state(words) {
  at('state').textContent = words ?? (dirty() ? 'Changed, not saved yet' : 'As in the file');
  at('save').disabled = !dirty();
}

async function read() {
  const answer = await (await ask('text')).json();
  mark = answer.mark;
  saved = answer.text;
  at('name').textContent = answer.name;
  document.title = `${answer.name} · dwell`;
  return answer.text;
}

async function save() {
  if (!dirty()) return;
  const written = text.value;
  const answer = await send(`save?mark=${mark}`, written);
  if (answer.status === 409) {
    at('changed-words').textContent = await answer.text();
    at('changed').hidden = false;
    at('keep-copy').focus();
    return;
  }
  mark = (await answer.json()).mark;
  saved = written;
  at('changed').hidden = true;
  state(dirty() ? undefined : 'Saved');
}

async function saveCopy() {
  const { name } = await (await send('copy', text.value)).json();
  at('changed').hidden = true;
  state(`Saved as ${name}`);
}

async function takeFile() {
  const before = text.value;
  const inFile = await read();
  at('kept-text').value = before;
  at('kept').hidden = false;
  replace(0, text.value.length, inFile);
  at('changed').hidden = true;
  changed();
}

async function layOut() {
  const before = text.value;
  const laidOut = await (await send('laid-out', before)).text();
  if (laidOut === before || text.value !== before) return;
  const caret = text.selectionStart;
  const line = before.slice(0, caret).split('\n').length;
  replace(0, before.length, laidOut);
  const start = laidOut.split('\n').slice(0, line - 1).join('\n').length;
  text.setSelectionRange(start + (line > 1 ? 1 : 0), start + (line > 1 ? 1 : 0));
  changed();
}

const act = (work) => () => work().catch(() => {});
text.addEventListener('input', changed);
text.addEventListener('scroll', follow);
at('save').addEventListener('click', act(save));
at('keep-copy').addEventListener('click', act(saveCopy));
at('take-file').addEventListener('click', act(takeFile));
at('lay-out').addEventListener('click', act(layOut));
addEventListener('keydown', (key) => {
  if ((key.ctrlKey || key.metaKey) && key.key.toLowerCase() === 's') {
    key.preventDefault();
    act(save)();
  }
});
addEventListener('beforeunload', (leaving) => {
  if (dirty()) leaving.preventDefault();
});
for (const button of document.querySelectorAll('[data-view]')) {
  button.addEventListener('click', () => {
    for (const other of document.querySelectorAll('[data-view]')) {
      other.setAttribute('aria-pressed', String(other === button));
      at(other.dataset.view).hidden = other !== button;
    }
  });
}

act(async () => {
  text.value = await read();
  state();
  changed();
  text.setSelectionRange(0, 0);
})();
