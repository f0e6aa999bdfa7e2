/* Two comforts for people who have scripts; no page needs them.
   1. A form with data-guard asks before typing that was not saved is left.
   2. The same form sent twice within three seconds is sent once.
   Written for old school computers: no syntax newer than ES5. */
(function () {
  'use strict';
  if (!document.addEventListener || !document.querySelector) { return; }

  var PAUSE_MS = 3000;
  // A page that came back without being stored holds typing already.
  var unsaved = Boolean(document.querySelector('form[data-guard][data-unsaved]'));
  var sentForm = null;
  var sentAt = 0;

  function guarded(element) {
    var form = element && element.form;
    return Boolean(form && form.hasAttribute('data-guard'));
  }

  function noteTyping(event) {
    if (guarded(event.target)) { unsaved = true; }
  }

  document.addEventListener('input', noteTyping);
  document.addEventListener('change', noteTyping);

  document.addEventListener('submit', function (event) {
    var now = new Date().getTime();
    if (event.target === sentForm && now - sentAt < PAUSE_MS) {
      event.preventDefault();
      return;
    }
    sentForm = event.target;
    sentAt = now;
    if (sentForm.hasAttribute('data-guard')) { unsaved = false; }
  });

  window.addEventListener('beforeunload', function (event) {
    if (!unsaved) { return; }
    event.preventDefault();
    event.returnValue = '';
  });

  // A page taken out of the browser's memory by Back may be sent again at once.
  window.addEventListener('pageshow', function () { sentForm = null; });
}());
