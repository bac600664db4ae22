// Says that a plan is being made and for how long already; without it the page only waits.
"use strict";

for (const form of document.querySelectorAll("form[data-plan]")) {
  form.addEventListener("submit", () => {
    const told = form.querySelector("output");
    const started = Date.now();
    const tell = () => {
      told.textContent = `working, ${Math.round((Date.now() - started) / 1000)} s`;
    };
    tell();
    setInterval(tell, 1000);
  });
}
