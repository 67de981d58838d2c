// Measures the page as it stands against the table of targets, letters and contrasts. Returns a
// sentence for everything that stands wrong. Arguments: the width of the screen; gloves; only the
// number pad.
const [width, gloves, padOnly] = arguments;
const found = new Set();
const root = padOnly ? document.querySelector('.pad') : document.body;

const TARGETS = 'a[href], button, input, select, textarea, summary, [role=button], [role=tab],'
    + '[role=checkbox], [role=radio], [role=switch]';
const name = e => {
    const text = e.ariaLabel || e.labels?.[0]?.innerText || e.innerText || e.id
        || e.getAttribute('class') || e.tagName;
    return `“${text.trim().replace(/\s+/g, ' ').slice(0, 30)}”`;
};
const round = n => Math.round(n * 10) / 10;
const size = box => `${round(box.width)} x ${round(box.height)}`;
const shown = e => e.checkVisibility({ visibilityProperty: true });
const isWrong = (wrong, sentence) => wrong && found.add(sentence);

const targets = [...root.querySelectorAll(TARGETS)].filter(e => !e.disabled && shown(e));
isWrong(!targets.length, 'nothing can be touched');

// T1 and T2: sizes.
const least = { b: [64, 64], c: [80, 72], e: [80, 72] };
if (gloves) {
    // Three keys of 108 pixels do not fit beside each other on the smallest phone.
    least.c = least.e = [width < 360 ? 96 : 108, 96];
} else if (width < 360) {
    least.c = [72, 72];
}
for (const e of targets) {
    const box = e.getBoundingClientRect();
    const inText = e.matches('p a');
    const [across, high] = inText ? [0, 24] : least[e.dataset.touch] ?? [48, 48];
    isWrong(box.width < across - 0.1 || box.height < high - 0.1,
        `${name(e)} is ${size(box)} and has to be ${across} x ${high}`);
}

// T3: gaps. What scrolls under a bar does not stand beside it.
const layer = e => e.closest('.pad, .page-bar, .page-head, .split-answer, .split-inputs')
    ?.className.split(' ')[0] ?? 'main';
const spots = targets.map(e => [e, e.getBoundingClientRect(), layer(e)]);
for (const [n, [a, x, here]] of spots.entries()) {
    for (const [b, y, there] of spots.slice(n + 1)) {
        const inOne = here == there || ![here, there].some(l => /^(pad|page-)/.test(l));
        if (!inOne || a.contains(b) || b.contains(a)) continue;
        const dx = Math.max(x.left - y.right, y.left - x.right);
        const dy = Math.max(x.top - y.bottom, y.top - x.bottom);
        const gap = dx < 0 ? dy : dy < 0 ? dx : Math.hypot(dx, dy);
        const danger = a.dataset.touch == 'e' || b.dataset.touch == 'e';
        const wanted = danger ? 32 : gloves ? 12 : 8;
        isWrong(gap < wanted - 0.1,
            `${name(a)} and ${name(b)} are ${round(gap)} apart and have to be ${wanted}`);
    }
}

// T4: what is touched is what is seen.
for (const [e, , where] of spots) {
    if (where != 'pad') e.scrollIntoView({ block: 'center', behavior: 'instant' });
    const box = e.getBoundingClientRect();
    const hits = [[0.5, 0.5], [0.1, 0.1], [0.9, 0.1], [0.1, 0.9], [0.9, 0.9]].filter(([x, y]) => {
        const top = document.elementFromPoint(box.left + x * box.width, box.top + y * box.height);
        return top && (e.contains(top) || [...(e.labels ?? [])].some(l => l.contains(top)));
    });
    isWrong(hits.length < 5, `${name(e)} is hit at ${hits.length} of 5 points`);
}
scrollTo(0, 0);

// T5 and T6: letters.
const letter = e => {
    const own = parseFloat(getComputedStyle(e).fontSize);
    const svg = e.closest('svg[viewBox]');
    return svg ? own * svg.getScreenCTM().a : own;
};
for (const e of root.querySelectorAll('[data-result]')) {
    if (!shown(e)) continue;
    const isKey = e.dataset.result == 'key', wanted = isKey ? 56 : 32;
    isWrong(letter(e) < wanted, `the result ${name(e)} is ${letter(e)} high and has to be ${wanted}`);
    isWrong(isKey && getComputedStyle(e).fontWeight < 600, `the result ${name(e)} is thin`);
}
for (const e of root.querySelectorAll('.unit, .big-label, .cell-label, .stepper-label')) {
    isWrong(shown(e) && !e.closest('.pad') && letter(e) < 24,
        `the label ${name(e)} is ${letter(e)} high and has to be 24`);
}
const letters = document.createTreeWalker(root, NodeFilter.SHOW_TEXT);
for (let node; node = letters.nextNode();) {
    const e = node.parentElement;
    if (!node.data.trim() || !shown(e) || e.closest('.hidden-text')) continue;
    isWrong(letter(e) < 15.95, `the text “${node.data.trim().slice(0, 30)}” is ${round(letter(e))} high`);
}

// T7: contrasts. Those of plain text are axe's.
const channels = color => color.match(/[\d.]+/g).map(Number);
const luminance = color => {
    const [r, g, b] = channels(color).map(c => c / 255)
        .map(c => c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4);
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
};
const contrast = (a, b) => {
    const [dark, light] = [luminance(a), luminance(b)].sort((x, y) => x - y);
    return (light + 0.05) / (dark + 0.05);
};
const isClear = color => channels(color)[3] === 0;
const ground = e => {
    while (e) {
        const color = getComputedStyle(e).backgroundColor;
        if (!isClear(color)) return color;
        e = e.parentElement;
    }
    return 'rgb(255, 255, 255)';
};
const holdsApart = (e, color, against, wanted) => {
    const is = contrast(color, against);
    isWrong(is < wanted,
        `.${e.getAttribute('class')} ${name(e)} has ${round(is)} : 1 and has to have ${wanted}`);
};
for (const e of root.querySelectorAll('[data-result=key]')) {
    if (shown(e)) holdsApart(e, getComputedStyle(e).color, ground(e), 12);
}
const EDGED = '.button:not(.quiet), .chip, .door, .key, .step, .toggle, .unit-switch, .field-box,'
    + '.text-input, .choice-face, .fold > summary, .line[href]';
for (const e of root.querySelectorAll(EDGED)) {
    if (!shown(e)) continue;
    const style = getComputedStyle(e), around = ground(e.parentElement);
    const edge = parseFloat(style.borderTopWidth) && !isClear(style.borderTopColor);
    const by = edge ? style.borderTopColor : ground(e);
    holdsApart(e, by, around, 3);
}
const DRAWN = 'svg.sketch, .state-shape > *, .track, .knob, .graduated .fill, .graduated .mark,'
    + '.graduated .pointer, .window-over, .window-near, .window-chosen, .window-wanted,'
    + '.window-axis, .picture .outline, .picture .size';
for (const e of root.querySelectorAll(DRAWN)) {
    if (!shown(e)) continue;
    const { stroke, fill } = getComputedStyle(e);
    const isLine = !/^(none|rgba\(.*, 0\))$/.test(stroke), isFilled = fill != 'none';
    const on = e.matches('.knob') && e.closest('[aria-checked=true]');
    const against = on ? getComputedStyle(on.querySelector('.track')).fill : ground(e.closest('svg, :has(> svg)'));
    const best = [isLine && stroke, isFilled && fill].filter(c => c && !isClear(c))
        .sort((a, b) => contrast(b, against) - contrast(a, against))[0];
    if (best) holdsApart(e, best, against, 3);
}
const style = getComputedStyle(document.documentElement);
const accent = getComputedStyle(Object.assign(document.body, {})).getPropertyValue('--accent').trim();
const asColor = text => {
    const [r, g, b] = text.slice(1).match(/../g).map(h => parseInt(h, 16));
    return `rgb(${r}, ${g}, ${b})`;
};
for (const token of ['--bg', '--surface', '--raised']) {
    const is = contrast(asColor(accent), asColor(style.getPropertyValue(token).trim()));
    isWrong(is < 3, `the focus ring has ${round(is)} : 1 on ${token}`);
}

// T9 and T17: nothing is wider than its place.
const wide = Math.max(document.scrollingElement.scrollWidth, innerWidth);
isWrong(wide > width, `the page is ${wide} wide on ${width}`);
for (const e of root.querySelectorAll('*')) {
    if (!(e instanceof HTMLElement) || !e.clientWidth || !shown(e)) continue;
    // A long name, a list of speeds and a sum move within their field.
    const moves = '.scale, .pad-label > *, .text-input, .field.list input, .converter-line input';
    if (e.closest('.hidden-text') || e.matches(moves)) continue;
    isWrong(e.scrollWidth > e.clientWidth + 1,
        `${e.tagName.toLowerCase()}.${e.className} ${name(e)} holds ${e.scrollWidth} in ${e.clientWidth}`);
    isWrong(e.matches('button, .button, .chip') && e.scrollHeight > e.clientHeight + 1,
        `${name(e)} is ${e.clientHeight} high and holds ${e.scrollHeight}`);
}

// T16: a state is told by a shape and a word.
for (const e of root.querySelectorAll('[data-status]')) {
    isWrong(shown(e) && !(e.innerText.trim() && e.querySelector('svg')),
        `the state of ${name(e)} has no shape or no word`);
}
return [...found];
