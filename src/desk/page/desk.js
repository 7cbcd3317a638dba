// The desk: sends what is written to the program that served this page, and shows what comes back.
'use strict';

// What is cheap to find out follows every key; plan and pictures wait for a rest.
const SOON = 120;
const AT_REST = 600;

// The mark of the file as it was last read or saved, and the text that stood in it then.
let mark = null;
let saved = '';

// Trouble with saving stays until a save goes well; other trouble until anything does.
let unsaved = '';
let unanswered = '';
function trouble() {
  at('trouble').textContent = `${unsaved} ${unanswered}`.trim();
  at('trouble').hidden = !unsaved && !unanswered;
}

const AWAY = 'The program behind this page does not answer. It may have been ended. What stands here is not lost as long as '
  + 'this page stays open: copy it, start `dwell desk` again, and paste it there.';

// 409 and 503 are answers: somebody else has written the file, or wants a plan.
async function ask(what, options = {}) {
  let answer;
  try {
    answer = await fetch(what, { cache: 'no-store', credentials: 'omit', ...options });
  } catch {
    unanswered = AWAY;
    trouble();
    throw new Error(unanswered);
  }
  unanswered = answer.ok || [409, 503].includes(answer.status) ? '' : await answer.text();
  trouble();
  if (unanswered) throw new Error(unanswered);
  return answer;
}

const send = (what, body) =>
  ask(what, { method: 'POST', body, headers: { 'Content-Type': 'text/plain; charset=utf-8' } });

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

let asked = 0;
async function findings() {
  const written = text.value;
  const mine = (asked += 1);
  const answer = await send('findings', written);
  const found = await answer.json();
  // What was found with the plan says more of the same text.
  if (mine === asked && text.value === written && drawn.text !== written) show(written, found);
}

// The text whose plan is shown, and all that was found in it.
let drawn = { text: null, found: null };
// The text whose plan is asked for.
let awaited = null;
async function views() {
  const written = text.value;
  if ([drawn.text, awaited].includes(written)) return;
  awaited = written;
  at('working').textContent = 'Working out the plan and the temperatures …';
  try {
    const answer = await send('views', written);
    // Nobody looks at a plan of what is no longer written.
    if (awaited !== written || text.value !== written) return;
    if (answer.status === 503) {
      // Another page is open on the same file; this one comes next.
      later();
      return;
    }
    drawn = { text: written, found: await answer.json() };
    draw(drawn.found);
    if (text.value === written) known();
    else later();
  } finally {
    if (awaited === written) awaited = null;
    if (text.value !== drawn.text) old(true);
  }
}

// Everything about the text as it stands has been found out.
function known() {
  asked += 1;
  awaited = null;
  show(drawn.text, drawn.found);
  old(false);
  at('working').textContent = drawn.found.nothing ? '' : 'All of this is predicted. A probe decides, not a plan.';
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
  clearTimeout(soon);
  clearTimeout(rest);
  if (drawn.text === text.value) {
    known();
    return;
  }
  old(true);
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

// One at a time: the next one has to know the mark that this one leaves.
let saving = false;
async function save() {
  if (saving || !dirty()) return;
  saving = true;
  const written = text.value;
  try {
    const answer = await send(`save?mark=${mark}`, written);
    if (answer.status === 409) {
      at('changed-words').textContent = await answer.text();
      at('changed').hidden = false;
      at('keep-copy').focus();
      return;
    }
    mark = (await answer.json()).mark;
    saved = written;
    unsaved = '';
    trouble();
    at('changed').hidden = true;
    state(dirty() ? undefined : 'Saved');
  } catch (why) {
    unsaved = `Not saved. ${why.message === AWAY ? '' : why.message}`;
    trouble();
  } finally {
    saving = false;
  }
}

async function saveCopy() {
  const { name } = await (await send('copy', text.value)).json();
  at('changed').hidden = true;
  state(`Saved as ${name}`);
}

async function takeFile() {
  const inFile = await read();
  const kept = [text.value, at('kept-text').value];
  at('kept-text').value = kept.filter((one) => one).join('\n\n');
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
    if (!key.repeat) act(save)();
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
