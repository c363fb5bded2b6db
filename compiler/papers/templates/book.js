"use strict";
(function () {
  const answer = document.getElementById("answer");
  const shown = document.getElementById("answer-text");
  let asked = null;
  function close() {
    answer.hidden = true;
    if (asked) asked.focus();
  }
  document.getElementById("answer-close").addEventListener("click", close);
  document.addEventListener("keydown", function (event) {
    if (event.key === "Escape" && !answer.hidden) close();
  });
  document.addEventListener("click", function (event) {
    const link = event.target.closest && event.target.closest("a.why");
    if (!link) return;
    const found = document.getElementById("why-" + link.getAttribute("data-why"));
    if (!found || answer.contains(link)) return;
    event.preventDefault();
    asked = link;
    const copy = found.cloneNode(true);
    copy.removeAttribute("id");
    shown.replaceChildren(copy);
    answer.hidden = false;
    document.getElementById("answer-close").focus({ preventScroll: true });
  });

  function plain(text) {
    return text.toLowerCase().replace(/[._]/g, " ").replace(/\s+/g, " ").trim();
  }
  const targets = Array.from(document.querySelectorAll("[data-find]"), function (element) {
    return { id: element.id, said: element.getAttribute("data-find"), name: plain(element.getAttribute("data-find")) };
  });
  // A scanned label reads: job, revision, tag, part. Its last two words are what is looked for.
  function wanted(text) {
    const pieces = text.split(/[,;|\t]/);
    return plain(pieces.length >= 4 ? pieces.slice(2).join(" ") : text);
  }
  function find(text) {
    const name = wanted(text);
    if (!name) return [];
    const exact = targets.filter(function (each) { return each.name === name; });
    if (exact.length) return exact;
    return targets.filter(function (each) {
      return name.split(" ").every(function (word) { return each.name.includes(word); });
    });
  }
  document.querySelectorAll(".finder").forEach(function (finder) {
    finder.hidden = false;
    const input = finder.querySelector("input");
    const list = finder.closest(".title").querySelector(".found");
    input.addEventListener("keydown", function (event) {
      if (event.key !== "Enter") return;
      event.preventDefault();
      const found = find(input.value);
      list.replaceChildren();
      if (found.length === 1) {
        location.hash = found[0].id;
        return;
      }
      const words = found.length ? found.slice(0, 12) : [null];
      words.forEach(function (each) {
        const item = document.createElement("li");
        if (each) {
          const link = document.createElement("a");
          link.href = "#" + each.id;
          link.textContent = each.said;
          item.append(link);
        } else {
          item.textContent = "Nothing here is called that.";
        }
        list.append(item);
      });
      if (found.length > 12) {
        const item = document.createElement("li");
        item.textContent = found.length - 12 + " more; say another word of its name.";
        list.append(item);
      }
    });
  });
})();
