/* Keys for the marking pages. Every key presses a button that is on the page,
   so nothing here can be done by keys alone. Single keys can be switched off
   (WCAG 2.1.4) and never work while somebody types in a box. */
(function () {
  'use strict';
  var toggle = document.querySelector('[data-keys-on]');
  var points = Array.prototype.slice.call(document.querySelectorAll('[data-point]'));
  if (!toggle || !points.length) { return; }

  try { toggle.checked = window.localStorage.getItem('keys') !== 'off'; } catch (e) { /* private window */ }
  toggle.addEventListener('change', function () {
    try { window.localStorage.setItem('keys', toggle.checked ? 'on' : 'off'); } catch (e) { /* private window */ }
  });

  var last = 0;

  function current() {
    var focused = document.activeElement && document.activeElement.closest('[data-point]');
    var at = points.indexOf(focused);
    if (at >= 0) { last = at; }
    return at;
  }

  function go(at) {
    var point = points[Math.max(0, Math.min(points.length - 1, at))];
    point.focus();
    point.scrollIntoView({ block: 'nearest' });
  }

  // The point that the address names, else the first that is open.
  var named = location.hash && document.getElementById(location.hash.slice(1));
  var isPoint = named && named.hasAttribute('data-point');
  var isElsewhere = location.hash && !isPoint || document.querySelector('[autofocus]');
  if (!isElsewhere) {
    var open = points.findIndex(function (p) { return p.classList.contains('open'); });
    go(isPoint ? points.indexOf(named) : Math.max(0, open));
  }

  function press(selector, within) {
    var found = (within || document).querySelector(selector);
    if (found) { found.click(); }
    return Boolean(found);
  }

  function isTyping(element) {
    return /^(INPUT|TEXTAREA|SELECT)$/.test(element.tagName) && element.type !== 'checkbox';
  }

  var keys = {
    ArrowDown: function () { current(); go(last + 1); last = current(); return true; },
    ArrowUp: function () { current(); go(last - 1); last = current(); return true; },
    ArrowRight: function () { return press('[data-after]'); },
    ArrowLeft: function () { return press('[data-before]'); },
    a: function () { return press('[data-all] button'); },
    z: function () { return press('[data-undo] button'); },
    w: function () {
      var note = document.querySelector('[data-note]');
      if (note) { note.focus(); }
      return Boolean(note);
    },
    ' ': function () {
      var at = current();
      return at >= 0 && press('.mark-choice.suggested', points[at]);
    }
  };

  document.addEventListener('keydown', function (event) {
    var target = event.target;
    if (event.key === 'Escape' && isTyping(target)) { current(); target.blur(); go(last); return; }
    if (!toggle.checked || event.ctrlKey || event.altKey || event.metaKey || isTyping(target)) { return; }
    // A table that moves in its own region keeps its arrow keys.
    if (/^Arrow/.test(event.key) && target.closest('.scroll')) { return; }
    var isButton = /^(BUTTON|A|SUMMARY)$/.test(target.tagName);
    if (isButton && event.key === ' ') { return; }
    var act = keys[event.key.length === 1 ? event.key.toLowerCase() : event.key];
    var done = false;
    if (act) {
      done = act();
    } else if (/^[0-9]$/.test(event.key) && current() >= 0) {
      done = press('.mark-choice[value="' + event.key + '"]', points[current()]);
    }
    if (done) { event.preventDefault(); }
  });

  // A comment that is picked is put into the note, to be changed there.
  var pick = document.querySelector('[data-comment]');
  var note = document.querySelector('[data-note]');
  if (pick && note) {
    pick.addEventListener('change', function () {
      if (!pick.value) { return; }
      note.value = note.value ? note.value.replace(/\s*$/, ' ') + pick.value : pick.value;
      pick.value = '';
      note.focus();
    });
  }
}());
