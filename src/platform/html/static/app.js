// Comfort only: every page works without this file. The focus goes to what is wrong, addresses can be copied,
// a form is not sent twice, and places are proposed while typing (combobox pattern of the ARIA practices guide).

const all = (selector) => document.querySelectorAll(selector);

all('[data-focus]')[0]?.focus();

for (const button of all('[data-copy]')) {
  if (!navigator.clipboard) continue;
  button.hidden = false;
  button.addEventListener('click', () => {
    const field = document.getElementById(button.dataset.copy);
    field.select();
    const say = (words) => button.parentElement.querySelector('[role=status]').replaceChildren(words);
    navigator.clipboard.writeText(field.value).then(
      () => say(button.dataset.copied),
      () => say(button.dataset.marked),
    );
  });
}

for (const form of all('form[method=post]')) {
  form.addEventListener('submit', (event) => {
    if (form.dataset.sent) return event.preventDefault();
    form.dataset.sent = 'yes';
    setTimeout(() => delete form.dataset.sent, 8000);
  });
}
addEventListener('pageshow', () => {
  for (const form of all('[data-sent]')) delete form.dataset.sent;
});

for (const field of all('[data-places-url]')) proposePlaces(field);

function proposePlaces(field) {
  const chosen = field.parentElement.querySelector('[type=hidden]');
  const list = give('ul', {
    id: `${field.id}-places`,
    class: 'proposals',
    role: 'listbox',
    'aria-label': field.dataset.placesTitle,
  });
  const told = give('span', { class: 'unseen', role: 'status' });
  give(field, {
    role: 'combobox',
    autocomplete: 'off',
    'aria-autocomplete': 'list',
    'aria-controls': list.id,
  });
  field.after(list, told);
  let places;
  let at;
  let waiting;
  show([]);

  function show(found) {
    places = found;
    list.replaceChildren(
      ...found.map(({ label }, index) => {
        const line = give('li', { id: `${list.id}-${index}`, role: 'option' });
        line.textContent = label;
        line.onpointerdown = (event) => event.preventDefault();
        line.onclick = () => choose(index);
        return line;
      }),
    );
    list.hidden = found.length === 0;
    give(field, { 'aria-expanded': !list.hidden });
    move(-1);
  }
  function move(to) {
    at = to;
    [...list.children].forEach((line, index) => {
      give(line, { 'aria-selected': index === at });
    });
    give(field, { 'aria-activedescendant': list.children[at]?.id ?? '' });
    list.children[at]?.scrollIntoView({ block: 'nearest' });
  }
  function choose(index) {
    field.value = places[index].label;
    chosen.value = places[index].id;
    told.textContent = '';
    show([]);
  }
  async function ask() {
    const words = field.value.trim();
    let found = [];
    if (words.length > 1) {
      const answer = await fetch(`${field.dataset.placesUrl}?q=${encodeURIComponent(words)}`).catch(
        () => null,
      );
      if (answer?.ok) found = (await answer.json()).places;
      if (words !== field.value.trim() || document.activeElement !== field) return;
      const { placesFound, placesNone } = field.dataset;
      told.textContent = found.length ? placesFound.replace('#', found.length) : placesNone;
    }
    show(found);
  }

  field.addEventListener('input', () => {
    chosen.value = '';
    clearTimeout(waiting);
    waiting = setTimeout(ask, 180);
  });
  field.addEventListener('blur', () => show([]));
  field.addEventListener('keydown', (event) => {
    const { key } = event;
    if (list.hidden || !/^(Arrow(Up|Down)|Enter|Escape)$/.test(key)) return;
    if (key === 'Enter' && at < 0) return show([]);
    event.preventDefault();
    if (key === 'ArrowDown') move((at + 1) % places.length);
    else if (key === 'ArrowUp') move(at < 1 ? places.length - 1 : at - 1);
    else if (key === 'Enter') choose(at);
    else show([]);
  });
}

/** Sets attributes on an element, or on a new one of that name. */
function give(element, attributes) {
  const target = typeof element === 'string' ? document.createElement(element) : element;
  for (const [name, value] of Object.entries(attributes)) target.setAttribute(name, value);
  return target;
}
