// Keeps the board up to date: the server says that something changed, and the board is fetched anew. Without this script, or where the
// stream breaks for good, the page reloads once a minute.
(function () {
  "use strict";
  var reload = null;

  function byReload() {
    if (!reload) reload = setTimeout(function () { location.reload(); }, 60000);
  }

  function say(text) {
    var at = document.getElementById("link-state");
    if (at) at.textContent = text;
  }

  function renew(version) {
    var board = document.getElementById("board");
    if (board.dataset.version === version) return;
    fetch("/board", { cache: "no-store", credentials: "same-origin" }).then(function (r) {
      if (!r.ok) { location.reload(); return null; }
      return r.text();
    }).then(function (text) {
      if (text === null) return;
      var fresh = new DOMParser().parseFromString(text, "text/html").getElementById("board");
      if (!fresh) { location.reload(); return; }
      var held = document.activeElement && document.activeElement.id;
      board.replaceWith(document.importNode(fresh, true));
      var back = held && document.getElementById(held);
      if (back) back.focus({ preventScroll: true });
      document.getElementById("news").textContent = "The board has changed.";
    }).catch(byReload);
  }

  if (!window.EventSource) { byReload(); return; }
  var stream = new EventSource("/board/changes");
  stream.addEventListener("open", function () {
    clearTimeout(reload);
    reload = null;
    say("");
  });
  stream.addEventListener("changed", function (e) { renew(e.data); });
  stream.addEventListener("over", function () { stream.close(); location.reload(); });
  stream.addEventListener("error", function () {
    say(", not connected");
    byReload();
  });
})();
