/* The live pages of a lesson. When the server says that something has changed,
   and now and then anyway since minutes pass, the part of the page that changes
   is asked for again and put in the place of the old one. What has happened is
   said in a sentence. Without scripts the page refreshes itself by the clock.
   No syntax newer than ES5. */
(function () {
  'use strict';
  var region = document.getElementById('live');
  var said = document.getElementById('said');
  if (!region || !window.EventSource || !window.fetch || !window.URLSearchParams) { return; }

  var GATHER_MS = 300;   // changes that come together are fetched once
  var EVERY_MS = 30000;
  var GLIDE_MS = 500;
  var MOST_NEWS = 3;
  var calm = window.matchMedia('(prefers-reduced-motion: reduce)');
  var source = null;
  var soon = null;
  var busy = false;
  var missed = false;

  function count() { return document.getElementById('now').getAttribute('data-count'); }

  // What is typed or about to be chosen is never taken away.
  function isTyping() {
    var at = document.activeElement;
    return region.contains(at) && /^(INPUT|SELECT|TEXTAREA)$/.test(at.nodeName);
  }

  function marks() {
    var all = {};
    Array.prototype.forEach.call(region.querySelectorAll('li[data-mark]'), function (tile) {
      all[tile.id] = { mark: tile.getAttribute('data-mark'), news: tile.getAttribute('data-news'), at: tile.getBoundingClientRect(), tile: tile };
    });
    return all;
  }

  function tell(before, after) {
    var news = Object.keys(after).filter(function (id) {
      return before[id] && before[id].mark !== after[id].mark;
    }).map(function (id) { return after[id].news; });
    if (news.length > MOST_NEWS) { news = [said.getAttribute('data-many').replace('#', news.length)]; }
    if (news.length) { said.textContent = news.join(' '); }
  }

  // A tile that has another place glides there; nothing jumps.
  function glide(before, after) {
    if (calm.matches || !region.animate) { return; }
    Object.keys(after).forEach(function (id) {
      if (!before[id]) { return; }
      var x = before[id].at.left - after[id].at.left;
      var y = before[id].at.top - after[id].at.top;
      if (x || y) {
        after[id].tile.animate([{ transform: 'translate(' + x + 'px,' + y + 'px)' }, { transform: 'none' }], { duration: GLIDE_MS, easing: 'ease-in-out' });
      }
    });
  }

  function replace(html) {
    if (isTyping()) { missed = true; return; }
    var before = marks();
    var focused = region.contains(document.activeElement) ? document.activeElement.id : '';
    region.innerHTML = html;
    var after = marks();
    var again = focused && document.getElementById(focused);
    if (again) { again.focus({ preventScroll: true }); }
    glide(before, after);
    tell(before, after);
  }

  function refresh() {
    soon = null;
    if (busy || isTyping()) { missed = true; return; }
    busy = true;
    missed = false;
    fetch(region.getAttribute('data-part'), { credentials: 'same-origin' }).then(function (reply) {
      // Signed out, or switched off: the page itself says so.
      if (reply.redirected) { window.location.reload(); }
      if (reply.redirected || !reply.ok) { throw new Error('not now'); }
      return reply.text();
    }).then(replace).catch(function () { /* the next round tries again */ }).then(function () {
      busy = false;
      if (missed && !isTyping()) { gather(); }
    });
  }

  function gather() { soon = soon || window.setTimeout(refresh, GATHER_MS); }

  function listen() {
    if (source && source.readyState !== EventSource.CLOSED) { return; }
    source = new EventSource(region.getAttribute('data-changes') + '?since=' + count());
    source.addEventListener('changed', gather);
  }

  // A browser has few connections to one server: a page that nobody sees keeps none.
  function wake() {
    if (document.hidden) {
      if (source) { source.close(); }
    } else {
      listen();
      gather();
    }
  }

  region.addEventListener('submit', function (event) {
    var form = event.target;
    event.preventDefault();
    fetch(form.action, { method: 'POST', credentials: 'same-origin', redirect: 'manual', body: new URLSearchParams(new FormData(form)) }).then(function (reply) {
      if (reply.type !== 'opaqueredirect') { form.submit(); return; }
      said.textContent = form.getAttribute('data-done');
      gather();
    }, function () { form.submit(); });
  });
  region.addEventListener('focusout', function () { if (missed) { gather(); } });
  document.addEventListener('visibilitychange', wake);
  window.addEventListener('pagehide', function () { if (source) { source.close(); } });
  window.setInterval(function () { if (!document.hidden) { listen(); gather(); } }, EVERY_MS);
  if (!document.hidden) { listen(); }
}());
