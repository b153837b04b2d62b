// Keeps the page for use without a network, where it is served with the files beside it. The page a
// person has stays until they take the newer one: an update is fetched and told of, never put in
// place by itself. Nothing but the page is kept, and no request of anybody else is touched.
"use strict";

var NEWEST = "{{version}}";
var SHELF = "tastata";

function here(name) { return new URL(name, self.registration.scope).href; }
function slot(version) { return here("?version=" + version); }
function shelf() { return caches.open(SHELF); }

function digest(bytes) {
  return crypto.subtle.digest("SHA-256", bytes).then(function (hash) {
    return Array.from(new Uint8Array(hash), function (byte) {
      return byte.toString(16).padStart(2, "0");
    }).join("");
  });
}

// The version in use, or nothing before the first.
function chosen() {
  return shelf().then(function (kept) { return kept.match(here("?chosen")); })
    .then(function (answer) { return answer && answer.text(); });
}

function choose(version) {
  return shelf().then(function (kept) { return kept.put(here("?chosen"), new Response(version)); });
}

self.addEventListener("install", function (event) {
  event.waitUntil(fetch(here("./"), { cache: "no-cache" }).then(function (answer) {
    if (!answer.ok) throw new Error("The page is not there.");
    return answer.arrayBuffer();
  }).then(function (bytes) {
    return digest(bytes).then(function (version) {
      // Half of an update is none; the browser tries again.
      if (version !== NEWEST) throw new Error("The page is of another version.");
      var headers = { "Content-Type": "text/html; charset=utf-8" };
      return shelf().then(function (kept) {
        return kept.put(slot(NEWEST), new Response(bytes, { headers: headers }));
      });
    });
  }).then(chosen).then(function (version) {
    return version || choose(NEWEST);
  }).then(function () { return self.skipWaiting(); }));
});

self.addEventListener("activate", function (event) {
  event.waitUntil(Promise.all([shelf(), chosen()]).then(function (both) {
    var wanted = [here("?chosen"), slot(NEWEST), slot(both[1])];
    return both[0].keys().then(function (requests) {
      return Promise.all(requests.map(function (request) {
        return wanted.includes(request.url) || both[0].delete(request);
      }));
    });
  }).then(function () { return self.clients.claim(); }));
});

self.addEventListener("fetch", function (event) {
  var url = event.request.url.split(/[?#]/)[0];
  if (event.request.mode !== "navigate" || (url !== here("./") && url !== here("index.html"))) return;
  event.respondWith(Promise.all([shelf(), chosen()]).then(function (both) {
    return both[0].match(slot(both[1]));
  }).then(function (page) { return page || fetch(event.request); }));
});

// The page asks whether there is a newer one, and takes it when its user says so.
self.addEventListener("message", function (event) {
  var done = event.data === "take" ? choose(NEWEST) : Promise.resolve();
  event.waitUntil(done.then(chosen).then(function (version) {
    event.ports[0].postMessage(version !== NEWEST);
  }));
});
