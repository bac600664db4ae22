// Shows what is found while words are typed or filters are chosen; without it the form does.
"use strict";

(() => {
  const PAUSE = 180; // milliseconds after the last key
  const form = document.getElementById("ask");
  const results = document.getElementById("results");
  let waiting = 0;
  let asking = new AbortController();

  const question = () => {
    const asked = new URLSearchParams();
    for (const [name, value] of new FormData(form)) if (value) asked.append(name, value);
    return asked;
  };

  const show = async () => {
    asking.abort();
    asking = new AbortController();
    const asked = question();
    const address = asked.size ? `${form.action}?${asked}` : form.action;
    asked.append("only", "results");
    results.setAttribute("aria-busy", "true");
    try {
      const answer = await fetch(`${form.action}?${asked}`, { signal: asking.signal });
      if (!answer.ok) return;
      results.innerHTML = await answer.text();
      history.replaceState(null, "", address);
    } catch (fault) {
      if (fault.name !== "AbortError") results.removeAttribute("aria-busy");
      return;
    }
    results.removeAttribute("aria-busy");
  };

  form.addEventListener("input", (event) => {
    clearTimeout(waiting);
    // Another kind has other filters: that is another page.
    if (event.target.id === "kind") form.requestSubmit();
    else waiting = setTimeout(show, event.target.matches("input[type=search], input[inputmode]") ? PAUSE : 0);
  });
})();
