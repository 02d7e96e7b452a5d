"use strict";
(() => {
  const moments = [...document.querySelectorAll(".moment")];
  const one = document.getElementById("single");
  let current = moments[0];

  for (const part of document.querySelectorAll(".scripted")) part.hidden = false;

  const mark = (moment) => {
    for (const old of document.querySelectorAll(".current")) old.classList.remove("current");
    current = moment;
    if (!moment) return;
    moment.classList.add("current");
    moment.closest(".end").classList.add("current");
  };

  const go = (moment) => {
    if (!moment) return;
    stop();
    mark(moment);
    history.replaceState(null, "", "#" + moment.id);
    const name = moment.querySelector("h3");
    name.focus({ preventScroll: true });
    moment.scrollIntoView({ behavior: "instant", block: "start" });
  };

  document.addEventListener("click", (event) => {
    const link = event.target.closest('a[href^="#"]');
    if (!link) return;
    const target = document.getElementById(link.getAttribute("href").slice(1));
    const moment = target && (target.matches(".moment") ? target : target.querySelector(".moment"));
    if (link.matches(".step") || (moment && document.body.classList.contains("single"))) {
      event.preventDefault();
      go(moment);
    }
  });

  document.addEventListener("keydown", (event) => {
    if (event.altKey || event.ctrlKey || event.metaKey || event.shiftKey) return;
    const by = { ArrowRight: 1, ArrowLeft: -1 }[event.key];
    // A table that scrolls sideways keeps the keys that scroll it.
    if (!by || event.target.closest(".wide")) return;
    const here = event.target.closest(".moment");
    const from = here ? moments.indexOf(here) : moments.indexOf(current) - (stepped ? 0 : by);
    const next = moments[from + by];
    stepped = true;
    if (next) { event.preventDefault(); go(next); }
  });
  let stepped = false;

  one.addEventListener("click", () => {
    const on = document.body.classList.toggle("single");
    one.setAttribute("aria-pressed", String(on));
  });
  mark(document.getElementById(location.hash.slice(1))?.closest(".moment") || moments[0]);

  const clips = JSON.parse(document.getElementById("clips").textContent);
  const sounds = new Map();
  let context, button, sources = [], turn = 0;

  const sound = (number) => {
    if (!sounds.has(number)) {
      const bytes = Uint8Array.from(atob(clips[number]), (sign) => sign.charCodeAt(0));
      sounds.set(number, context.decodeAudioData(bytes.buffer));
    }
    return sounds.get(number);
  };

  const stop = () => {
    turn += 1;
    for (const source of sources) { source.onended = null; source.stop(); }
    sources = [];
    if (!button) return;
    button.textContent = "Play the read-back";
    button.classList.remove("playing");
    button = undefined;
  };

  const play = async (wanted) => {
    stop();
    const mine = turn;
    button = wanted;
    button.textContent = "Stop";
    button.classList.add("playing");
    context ??= new AudioContext();
    await context.resume();
    const numbers = wanted.dataset.play.split(" ").map(Number);
    const order = numbers.filter((_, place) => place % 2 === 0);
    const ready = await Promise.all(order.map(sound));
    if (mine !== turn) return;
    let at = context.currentTime + 0.05;
    ready.forEach((buffer, place) => {
      const source = new AudioBufferSourceNode(context, { buffer });
      source.connect(context.destination);
      source.start(at);
      at += buffer.duration + numbers[2 * place + 1] / 1000;
      sources.push(source);
    });
    sources.at(-1).onended = stop;
  };

  document.addEventListener("click", (event) => {
    const wanted = event.target.closest(".play");
    if (!wanted) return;
    if (wanted === button) stop();
    else play(wanted);
  });
})();
