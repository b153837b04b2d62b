// Starts the page: empties what a saved copy brought along, unpacks the module, runs it. On a server
// that has a worker for it, has it kept.
//
// The page may be the packed file or a copy saved by a browser while in use. Whatever the module
// draws lives in elements marked `data-live`, which are emptied here, and dialogs are closed, so both
// start alike. Written for old browsers too, so that they can at least say that they are too old.
(function () {
  "use strict";

  var root = document.documentElement;
  var live = document.querySelectorAll("[data-live]");
  for (var i = 0; i < live.length; i += 1) live[i].textContent = "";
  var sheets = document.querySelectorAll("dialog[open]");
  for (var j = 0; j < sheets.length; j += 1) sheets[j].removeAttribute("open");
  root.removeAttribute("data-state");
  var message = document.getElementById("message");
  message.hidden = true;

  // What stands beside the page on its server does not stand beside a copy.
  var head = document.head;
  var links = document.querySelectorAll("link[data-beside]");
  for (var b = 0; b < links.length; b += 1) head.removeChild(links[b]);

  // The page as it was before the module changed anything, for a button that saves it; the long text
  // of the module itself joins it only when it is asked for.
  var module = document.getElementById("module");
  var text = module.textContent;
  module.textContent = "";
  var tag = module.outerHTML.split("</")[0];
  var halves = root.outerHTML.split(tag);
  module.textContent = text;
  window.tastata = { original: function () {
    return "<!doctype html>\n" + halves.join(tag + text) + "\n";
  } };

  // What can go wrong before the module, with its words, is there.
  var sentences = {
    en: ["This browser is too old for this page. Please open it in a browser of 2023 or later.",
      "The page could not start. Reloading may help; if it does not, the file may be damaged."],
    it: ["Questo browser è troppo vecchio per questa pagina. Aprila in un browser del 2023 o più recente.",
      "La pagina non è partita. Ricaricare può aiutare; altrimenti il file può essere danneggiato."],
    de: ["Dieser Browser ist zu alt für diese Seite. Bitte in einem Browser von 2023 oder später öffnen.",
      "Die Seite konnte nicht starten. Neu laden kann helfen; sonst ist die Datei vielleicht beschädigt."],
    fr: ["Ce navigateur est trop ancien pour cette page. Ouvrez-la dans un navigateur de 2023 ou plus récent.",
      "La page n’a pas pu démarrer. La recharger peut aider ; sinon, le fichier est peut-être abîmé."],
    es: ["Este navegador es demasiado antiguo para esta página. Ábrela en un navegador de 2023 o posterior.",
      "La página no pudo iniciarse. Recargarla puede ayudar; si no, el archivo puede estar dañado."]
  };
  var tongue = (navigator.language || "en").slice(0, 2);
  var says = sentences.hasOwnProperty(tongue) ? sentences[tongue] : sentences.en;
  if (links.length && /^http/.test(location.protocol) && navigator.serviceWorker) install();

  // Keeps the page for use without a network, and has it tell of a newer one, which its user may
  // take or leave; see worker.js.
  function install() {
    for (var l = 0; l < links.length; l += 1) head.appendChild(links[l]);
    var workers = navigator.serviceWorker;
    function ask(what, told) {
      workers.ready.then(function (here) {
        var channel = new MessageChannel();
        channel.port1.onmessage = function (answer) { told(answer.data); };
        here.active.postMessage(what, [channel.port2]);
      });
    }
    function look() {
      ask("newer", function (newer) {
        if (newer) window.dispatchEvent(new Event("tastata-newer"));
      });
    }
    window.tastata.renew = function () { ask("take", function () { location.reload(); }); };
    window.tastata.look = look;
    workers.addEventListener("controllerchange", look);
    // No worker, as where a person browses in private, is no failure.
    workers.register("worker.js").catch(function () {});
  }

  function fail(sentence) {
    root.setAttribute("data-state", "failed");
    // When the module has something to say itself, that is the better sentence.
    if (!message.hidden && message.textContent) return;
    message.textContent = sentence;
    message.hidden = false;
  }

  if (typeof WebAssembly !== "object" || typeof DecompressionStream !== "function" ||
      typeof wasm_bindgen === "undefined") {
    fail(says[0]);
    return;
  }

  var packed = atob(text.trim());
  var bytes = new Uint8Array(packed.length);
  for (var k = 0; k < packed.length; k += 1) bytes[k] = packed.charCodeAt(k);
  var stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("gzip"));

  // Compiled while it is still being unpacked.
  wasm_bindgen({ module_or_path: new Response(stream, { headers: { "Content-Type": "application/wasm" } }) })
    .then(function () {
      wasm_bindgen.start();
      root.setAttribute("data-state", "ready");
      if (window.tastata.look) window.tastata.look();
    })
    .catch(function (error) {
      console.error(error);
      fail(says[1] + " (" + error + ")");
    });
})();
