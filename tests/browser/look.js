// Looks at one sheet in frames of several widths, and writes down what is wrong. Runs beside the sheet, not in it: the
// sheet keeps its own policy.
const wrong = [];
const plain = (text) => text.replace(/\s+/g, ' ').trim().slice(0, 40).replace(/[^\p{L}\p{N} :.,_-]/gu, '.');
const say = (frame, what, text) => wrong.push(`${frame.title}: ${what}: ${plain(text)}`);

// WCAG 2.2, relative luminance and contrast.
const channel = (c) => (c /= 255) <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
const luminance = ([r, g, b]) => 0.2126 * channel(r) + 0.7152 * channel(g) + 0.0722 * channel(b);
const colour = (css) => (css.match(/[\d.]+/g) || []).map(Number);
const contrast = (a, b) => (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);

function paper(element, view) {
  for (let at = element; at; at = at.parentElement) {
    const [r, g, b, opaque] = colour(view.getComputedStyle(at).backgroundColor);
    if (opaque === undefined || opaque > 0) return [r, g, b];
  }
  return view.matchMedia('(prefers-color-scheme: dark)').matches ? [20, 20, 20] : [255, 255, 255];
}

function texts(frame, view, page) {
  const width = page.documentElement.clientWidth;
  const all = page.createTreeWalker(page.body, NodeFilter.SHOW_TEXT);
  let seen = 0;
  for (let node = all.nextNode(); node; node = all.nextNode()) {
    const parent = node.parentElement;
    if (!node.data.trim() || parent.closest('svg, script, .unseen')) continue;
    seen += 1;
    const range = page.createRange();
    range.selectNodeContents(node);
    for (const box of range.getClientRects()) {
      if (box.width && (box.left < -0.5 || box.right > width + 0.5)) say(frame, 'over the edge', node.data);
    }
    // What a box cuts off is lost.
    for (let at = parent; at !== page.body; at = at.parentElement) {
      const cuts = view.getComputedStyle(at).overflowX !== 'visible' && !at.matches('.picture');
      if (cuts && at.scrollWidth > at.clientWidth + 1) say(frame, 'cut', node.data);
    }
    const ink = luminance(colour(view.getComputedStyle(parent).color));
    const ratio = contrast(ink, luminance(paper(parent, view)));
    if (ratio < 4.5) say(frame, `contrast ${ratio.toFixed(2)}`, node.data);
  }
  if (seen < 20) say(frame, 'little text', String(seen));
}

function keyboard(frame, page) {
  const named = (element) => {
    const label = element.getAttribute('aria-label');
    const by = element.getAttribute('aria-labelledby');
    return label || (by && page.getElementById(by)?.textContent.trim());
  };
  const wanted = [...page.querySelectorAll('input, [tabindex], .picture')];
  if (!wanted.length) say(frame, 'nothing to reach', '');
  for (const element of wanted) {
    element.focus();
    if (page.activeElement !== element || element.tabIndex < 0) say(frame, 'not reached', element.outerHTML);
    if (!named(element)) say(frame, 'without a name', element.outerHTML);
    const box = element.getBoundingClientRect();
    if (frame.title === 'phone' && element.type === 'checkbox' && Math.min(box.width, box.height) < 24) {
      say(frame, 'a small target', `${box.width} by ${box.height}`);
    }
  }
  const box = wanted.find((element) => element.type === 'checkbox');
  if (box) {
    box.click();
    if (!box.checked) say(frame, 'cannot be ticked', box.outerHTML);
  }
}

function look(frame) {
  const view = frame.contentWindow;
  const page = frame.contentDocument;
  const root = page.documentElement;
  if (root.scrollWidth > root.clientWidth) say(frame, 'wider than the page', String(root.scrollWidth));
  texts(frame, view, page);
  keyboard(frame, page);
  for (const picture of page.querySelectorAll('.picture')) {
    const box = picture.getBoundingClientRect();
    if (box.right > root.clientWidth + 0.5) say(frame, 'a picture over the edge', picture.getAttribute('aria-label'));
  }
  const fetched = view.performance.getEntriesByType('resource');
  if (fetched.length) say(frame, 'fetched', fetched[0].name);
}

addEventListener('load', () => {
  const frames = [...document.querySelectorAll('iframe')];
  frames.forEach(look);
  const scheme = matchMedia('(prefers-color-scheme: dark)').matches ? 'dark' : 'light';
  const out = document.createElement('pre');
  out.textContent = `LOOKED ${frames.length} ${scheme}\n${wrong.join('\n')}\nDONE`;
  document.body.replaceChildren(out);
});
