// Says beside a field what a typed reading is taken for; the server reads it as it will be kept.
"use strict";

(() => {
  const PAUSE = 350; // milliseconds after the last key
  const form = document.querySelector("form[data-reading]");
  let waiting = 0;

  const tell = async (field) => {
    const holder = field.closest(".attribute");
    const taken = holder.querySelector(".taken");
    const asked = new URLSearchParams({ name: holder.dataset.name, value: field.value });
    const answer = await fetch(`${form.dataset.reading}?${asked}`);
    if (!answer.ok) return;
    const { shown = "", fault = "" } = await answer.json();
    taken.textContent = fault || shown;
    taken.classList.toggle("fault", fault !== "");
    holder.classList.toggle("wrong", fault !== "");
    holder.querySelector(".fault[id]")?.remove();
  };

  form.addEventListener("input", (event) => {
    if (!event.target.matches(".reading")) return;
    clearTimeout(waiting);
    waiting = setTimeout(tell, PAUSE, event.target);
  });
})();
