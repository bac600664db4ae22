// The scanner: sends one frame after the other, outlines the labels in it, shows and sounds what
// came of them. What is typed, chosen or sent by a keyboard scanner goes the same way.
"use strict";

(() => {
  const at = (id) => document.getElementById(id);
  const scanner = at("scanner");
  const answer = at("answer");
  const token = document.querySelector('meta[name="csrf-token"]').content;
  const PAUSE = 60; // milliseconds between an answer and the next frame
  const WAIT = 1500; // after a failure
  const SOUND = {
    done: "done", shown: "done", target: "done", counted: "done",
    refused: "refused", anyway: "refused", ask: "question", slots: "question",
  };
  let watch = ""; // the server's name for this camera
  document.documentElement.classList.add("scripted");

  const told = (words, fault) => {
    const place = at("camera-told");
    place.textContent = words;
    place.classList.toggle("fault", Boolean(fault));
    at("start").hidden = camera.running;
    at("preview").hidden = !camera.running;
  };
  const camera = new Camera(at("video"), told);
  const pause = (long) => new Promise((resolve) => { setTimeout(resolve, long); });

  // ---- the server ----

  const post = async (url, body, type) => {
    const headers = { Accept: "application/json", "X-CSRFToken": token };
    if (type) headers["Content-Type"] = type;
    const came = await fetch(url, { method: "POST", headers, body, credentials: "same-origin" });
    const data = await came.json();
    if (data.refused) throw new Error(data.refused);
    return data;
  };

  const say = (state, html) => {
    const asked = [...answer.querySelectorAll(".answer:has(.quantity)")]; // still without an answer
    answer.innerHTML = html; // written by our own server, from a template that escapes
    for (const one of asked) {
      const { value } = one.querySelector("[name=number]");
      if (!answer.querySelector(`.quantity [name=number][value="${value}"]`)) answer.append(one);
    }
    Sounds.play(SOUND[state]);
  };
  const sayPlainly = (state, head, words) => {
    const section = document.createElement("section");
    section.className = `answer ${state}`;
    const title = document.createElement("h2");
    title.textContent = head;
    const line = document.createElement("p");
    line.className = "words";
    line.textContent = words;
    section.append(title, line);
    answer.replaceChildren(section);
    Sounds.play(SOUND[state]);
  };
  const failed = (fault) => {
    const silent = fault instanceof TypeError; // what fetch throws when nobody answers
    const words = silent
      ? "The laptop does not answer. Is partsbin bench still running there, and is this device in its network?"
      : fault.message;
    // Each frame fails alike; that is told and sounded once.
    if (answer.querySelector(".answer.refused .words")?.textContent !== words) {
      sayPlainly("refused", "Refused", words);
    }
  };

  const show = (came) => {
    if (!came) return;
    say(came.state, came.html);
    if (came.to) workWith(came.to, came.title);
    for (const one of came.counted) if (!one.unit) count.add(one.number, "", one.words);
    answer.querySelector(".quantity input")?.focus();
  };

  const workWith = (to, title) => {
    const url = new URL(scanner.dataset.page, location.href);
    url.searchParams.set("mode", scanner.dataset.mode);
    url.searchParams.set("to", to);
    // A count needs its list on the page; elsewhere the camera goes on.
    if (scanner.dataset.mode === "count") { location.assign(url); return; }
    history.replaceState(null, "", url);
    scanner.dataset.to = to;
    at("title").textContent = title;
    document.title = title;
    for (const field of document.querySelectorAll('.said input[name="to"]')) field.value = to;
    const chooser = at("to");
    if (chooser.matches("select") && ![...chooser.options].some((one) => one.value === to)) {
      chooser.append(new Option(to));
    }
    chooser.value = to;
  };

  // ---- the camera ----

  const outline = ({ labels, size }) => {
    const canvas = at("outlines");
    const [wide, high] = size;
    if (canvas.width !== wide || canvas.height !== high) { canvas.width = wide; canvas.height = high; }
    const pen = canvas.getContext("2d");
    pen.clearRect(0, 0, wide, high);
    pen.font = `bold ${Math.round(wide / 36)}px monospace`;
    for (const label of labels) {
      pen.beginPath();
      for (const [x, y] of label.corners) pen.lineTo(x, y);
      pen.closePath();
      for (const [width, colour] of [[wide / 110, "#000"], [wide / 220, "#ffe14d"]]) {
        pen.lineWidth = width;
        pen.strokeStyle = colour;
        pen.stroke();
      }
      const x = Math.min(...label.corners.map(([across]) => across));
      const y = Math.min(...label.corners.map(([, down]) => down));
      pen.lineWidth = wide / 200;
      pen.strokeStyle = "#000";
      pen.strokeText(label.number, x, Math.max(y - 8, wide / 36));
      pen.fillStyle = "#ffe14d";
      pen.fillText(label.number, x, Math.max(y - 8, wide / 36));
    }
  };

  const send = async (frame) => {
    const { mode, to } = scanner.dataset;
    const taken = performance.now();
    const asked = new URLSearchParams({ watch, mode, to });
    const came = await post(`${scanner.dataset.frame}?${asked}`, frame, "image/jpeg");
    watch = came.watch;
    outline(came);
    show(came.answer);
    const took = Math.round(performance.now() - taken);
    scanner.dataset.took = took;
    if (came.answer) scanner.dataset.answered = took;
  };

  let watching = false;
  const watchOn = async () => {
    watching = true;
    while (camera.running) {
      const frame = document.hidden ? null : await camera.frame();
      try {
        if (frame) await send(frame);
        await pause(PAUSE);
      } catch (fault) {
        failed(fault);
        await pause(WAIT);
      }
    }
    watching = false;
  };

  const start = async (device) => {
    if (!(await camera.start(device))) return;
    const all = await camera.list();
    at("which").hidden = all.length < 2;
    const now = camera.stream.getVideoTracks()[0].getSettings().deviceId;
    at("cameras").replaceChildren(...all.map((one, i) => new Option(one.label || `camera ${i + 1}`, one.deviceId, false, one.deviceId === now)));
    if (!watching) watchOn();
  };

  // ---- a count's list ----

  const count = (() => {
    const field = at("lines");
    if (!field) return { add: () => {} };
    const list = at("seen");
    const KEPT = `partsbin:count:${scanner.dataset.to}`; // a reload loses no list
    const words = new Map();
    const read = () => field.value.split("\n").map((line) => line.trim()).filter(Boolean);
    const plain = (line) => line.split("=")[0].replace(/[^0-9]/g, "");
    const draw = () => {
      const lines = read();
      sessionStorage.setItem(KEPT, field.value);
      list.hidden = lines.length === 0;
      list.replaceChildren(...lines.map((line, i) => {
        const item = document.createElement("li");
        const of = document.createElement("span");
        of.className = "of";
        of.textContent = `${plain(line).replace(/(\d{4})(?=\d)/g, "$1 ")} ${words.get(plain(line)) ?? ""}`;
        const much = document.createElement("span");
        much.className = "much";
        much.textContent = line.split("=")[1] ?? "";
        const away = document.createElement("button");
        away.type = "button";
        away.textContent = "Remove";
        away.setAttribute("aria-label", `Remove ${line}`);
        away.addEventListener("click", () => {
          field.value = read().filter((_, other) => other !== i).join("\n");
          draw();
        });
        item.append(of, much, away);
        return item;
      }));
      list.scrollTop = list.scrollHeight;
    };
    const add = (number, quantity, what) => {
      if (what) words.set(number, what);
      const lines = read();
      if (quantity || !lines.some((line) => plain(line) === number)) {
        lines.push(quantity ? `${number}=${quantity}` : number);
      }
      field.value = lines.join("\n");
      draw();
    };
    at("plain").open = false; // the list above it says the same
    field.value ||= sessionStorage.getItem(KEPT) ?? "";
    field.addEventListener("input", draw);
    field.form.addEventListener("submit", () => sessionStorage.removeItem(KEPT));
    draw();
    return { add };
  })();

  // ---- forms and keys ----

  const byHand = async (form) => {
    try {
      show((await post(form.action, new FormData(form))).answer);
    } catch (fault) {
      failed(fault);
    }
  };
  const undo = async (form) => {
    try {
      sayPlainly("done", "Undone", (await post(form.action, new FormData(form))).done);
    } catch (fault) {
      failed(fault);
    }
  };

  document.addEventListener("submit", (event) => {
    const form = event.target;
    if (form.matches("#typed, .answer .choice")) {
      event.preventDefault();
      byHand(form);
      if (form.id === "typed") { form.elements.number.value = ""; form.elements.number.focus(); }
    } else if (form.matches(".quantity")) {
      event.preventDefault();
      const section = form.closest(".answer");
      count.add(form.elements.number.value, form.elements.quantity.value.trim(), section.querySelector(".words").lastChild.textContent.trim());
      form.remove();
      Sounds.play("done");
    } else if (form.querySelector("button.undo")) {
      event.preventDefault();
      undo(form);
    }
  });

  document.addEventListener("partsbin:number", (event) => {
    event.preventDefault();
    const form = new FormData();
    const { mode, to } = scanner.dataset;
    for (const [name, value] of Object.entries({ number: event.detail, mode, to })) form.append(name, value);
    post(`${scanner.dataset.page}number`, form).then((came) => show(came.answer), failed);
  });

  at("picture")?.addEventListener("change", (event) => {
    const { form } = event.target;
    if (event.target.files.length) form.requestSubmit(form.querySelector("button[formaction]") ?? undefined);
  });
  at("to")?.addEventListener("change", (event) => {
    if (event.target.matches("select")) event.target.form.submit();
  });
  at("start").addEventListener("click", () => start());
  at("cameras").addEventListener("change", (event) => start(event.target.value));
  at("mute").addEventListener("click", (event) => event.target.setAttribute("aria-pressed", Sounds.toggle()));
  at("mute").setAttribute("aria-pressed", Sounds.isMuted());
  at("keys").hidden = false;
  if (!navigator.mediaDevices?.getUserMedia) told(Camera.NO_HTTPS, true);
  navigator.permissions?.query({ name: "camera" }).then((asked) => {
    if (asked.state === "granted") start();
  }, () => {});
})();
