// A keyboard scanner types a number very fast and then Enter; outside a field that goes to the
// page of the number, or to the page's own listener for `partsbin:number` if it takes it.
"use strict";

(() => {
  const FASTEST_HAND = 60; // milliseconds between two keys; a scanner needs far less
  let digits = "";
  let last = 0;

  const typing = (target) =>
    target instanceof HTMLElement && (target.isContentEditable || target.matches("input, textarea, select"));

  document.addEventListener("keydown", (event) => {
    if (typing(event.target) || event.ctrlKey || event.altKey || event.metaKey) return;
    const now = event.timeStamp;
    if (now - last > FASTEST_HAND) digits = "";
    last = now;
    if (/^[0-9]$/.test(event.key)) {
      digits += event.key;
    } else if (event.key === "Enter" && (digits.length === 8 || digits.length === 10)) {
      event.preventDefault();
      const number = digits;
      digits = "";
      const asked = new CustomEvent("partsbin:number", { detail: number, cancelable: true });
      if (document.dispatchEvent(asked)) location.assign(`/n/${number}`);
    } else {
      digits = "";
    }
  });
})();
