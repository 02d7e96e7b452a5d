"use strict";
(() => {
  const read = (id) => JSON.parse(document.getElementById(id).textContent);
  const { ends, said } = read("heads");
  const clips = read("clips");
  const heads = new Map();

  for (const part of document.querySelectorAll(".scripted")) part.hidden = false;

  // One end: its drawing, its sentences, and the moment that both show.
  class Head {
    constructor(section) {
      this.section = section;
      [this.last, this.states] = ends[section.id];
      this.name = section.querySelector("h3");
      this.svg = section.querySelector("svg.head");
      this.list = section.querySelector(".sentences");
      this.now = section.querySelector(".now");
      this.now.hidden = false;
      this.rows = [...section.querySelectorAll(".moments tbody tr")];
      const tools = document.getElementById("tools").content.cloneNode(true);
      this.tools = tools.querySelector(".tools");
      this.tools.setAttribute("aria-labelledby", this.name.id);
      if (!clips.length) tools.querySelector(".voice").remove();
      section.querySelector(".told").prepend(tools);
      this.output = section.querySelector(".at");
      this.at = this.last;
      this.show();
    }

    go(to) {
      const next = Math.max(0, Math.min(this.states.length - 1, to));
      if (next === this.at) return;
      if (player.head === this) player.stop();
      // The page above stays as high as it is, so the step stays where it is on the screen.
      this.at = next;
      this.draw();
      const [, , sentences] = this.states[next];
      this.list.replaceChildren(...sentences.map((number) => {
        const item = document.createElement("li");
        item.textContent = said[number][0];
        return item;
      }));
      this.show();
    }

    show() {
      const [number, words] = this.states[this.at];
      this.now.textContent = this.at === this.last ? "As the end was left." : words;
      this.output.textContent = `${this.at + 1} of ${this.states.length}`;
      for (const row of this.rows) row.classList.toggle("shown", row.cells[0].textContent === String(number));
      const edge = { first: 0, back: 0, next: this.states.length - 1, last: this.states.length - 1 };
      for (const button of this.tools.querySelectorAll("[data-step]")) {
        button.setAttribute("aria-disabled", String(this.at === edge[button.dataset.step]));
      }
    }

    draw() {
      const spots = new Map();
      for (const state of this.states.slice(0, this.at + 1)) {
        for (const [body, ...spot] of state[5]) spots.set(body, spot);
      }
      const [doubts, names, bowls] = [".doubts", ".names", ".bowls"].map((part) => this.svg.querySelector(part).children);
      const [, , , ringed, jack] = this.states[this.at];
      this.svg.querySelector(".named")?.remove();
      for (let body = 0; body < bowls.length; body += 1) {
        const spot = spots.get(body) || [];
        for (const part of [doubts[body], names[body], bowls[body]]) part.classList.toggle("gone", !spot.length);
        if (!spot.length) continue;
        const [x, y, long, short, turn, nameX, nameY, name] = spot;
        bowls[body].setAttribute("transform", `translate(${x} ${y})`);
        doubts[body].setAttribute("transform", `translate(${x} ${y}) rotate(${turn})`);
        doubts[body].setAttribute("rx", long);
        doubts[body].setAttribute("ry", short);
        doubts[body].classList.toggle("gone", !long);
        const size = this.svg.getAttribute("font-size");
        names[body].setAttribute("x", nameX);
        names[body].setAttribute("y", Math.round(nameY + 0.35 * size));
        names[body].textContent = name;
        if (body === ringed && this.at !== this.last) {
          const ring = document.createElementNS("http://www.w3.org/2000/svg", "circle");
          ring.setAttribute("class", "named");
          ring.setAttribute("r", Number(bowls[body].querySelector(".edge").getAttribute("r")) + 45);
          bowls[body].append(ring);
        }
      }
      const radius = Number(this.svg.querySelector(".edge").getAttribute("r"));
      const near = radius + 2.2 * this.svg.getAttribute("font-size");
      const far = [...spots.values()].filter(([x, y, , , , nameX, nameY]) => Math.hypot(nameX - x, nameY - y) > near);
      const lines = far.map(([x, y, , , , nameX, nameY]) => `M${x} ${y}L${nameX} ${nameY}`);
      this.svg.querySelector(".leaders").setAttribute("d", lines.join("") || "M0 0");
      const clock = this.svg.querySelector(".clock");
      clock.classList.toggle("gone", !jack.length);
      if (jack.length) clock.setAttribute("transform", `translate(${jack[0]} ${jack[1]})`);
    }
  }

  // The voice: sentences one after another, each of one or more clips with silences between.
  const player = {
    head: undefined,
    sentence: 0,
    clip: 0,
    turn: 0,
    speed: 1,
    sound: new Audio(),
    waiting: undefined,

    order() { return this.head.states[this.head.at][2]; },

    button() { return this.head?.tools.querySelector('[data-voice="play"]'); },

    play(head) {
      if (this.head !== head) { this.stop(); this.head = head; this.sentence = 0; }
      if (this.sentence >= this.order().length) this.sentence = 0;
      this.clip = 0;
      this.button().setAttribute("aria-pressed", "true");
      this.button().textContent = "Pause";
      this.speak();
    },

    pause() {
      this.turn += 1;
      clearTimeout(this.waiting);
      this.sound.pause();
      this.button()?.setAttribute("aria-pressed", "false");
      if (this.button()) this.button().textContent = "Play";
    },

    stop() {
      if (!this.head) return;
      this.pause();
      this.mark(-1);
      this.sentence = 0;
      this.head = undefined;
    },

    get playing() { return this.button()?.getAttribute("aria-pressed") === "true"; },

    mark(at) {
      [...this.head.list.children].forEach((item, place) => {
        if (place === at) item.setAttribute("aria-current", "true");
        else item.removeAttribute("aria-current");
      });
    },

    seek(head, by) {
      const going = this.head === head && this.playing;
      if (this.head !== head) { this.stop(); this.head = head; this.sentence = by > 0 ? -1 : 0; }
      const last = this.order().length - 1;
      this.sentence = Math.max(0, Math.min(last, this.sentence + by));
      this.pause();
      this.mark(this.sentence);
      if (going) this.play(head);
    },

    speak() {
      this.turn += 1;
      const mine = this.turn;
      const number = this.order()[this.sentence];
      if (number === undefined) { this.stop(); return; }
      this.mark(this.sentence);
      const order = said[number][1];
      if (2 * this.clip >= order.length) { this.sentence += 1; this.clip = 0; this.speak(); return; }
      this.sound.src = "data:audio/mpeg;base64," + clips[order[2 * this.clip]];
      this.sound.playbackRate = this.speed;
      this.sound.onended = () => {
        if (mine !== this.turn) return;
        this.waiting = setTimeout(() => {
          this.clip += 1;
          this.speak();
        }, order[2 * this.clip + 1] / this.speed);
      };
      this.sound.play().catch(() => { if (mine === this.turn) this.stop(); });
    },
  };

  for (const section of document.querySelectorAll(".end")) {
    if (ends[section.id]) heads.set(section, new Head(section));
  }

  const of = (element) => heads.get(element?.closest?.(".end"));

  // The end that has the focus while it can be seen; else the one in the middle of the screen.
  const inView = () => {
    const seen = (section) => {
      const place = section.getBoundingClientRect();
      return Math.min(place.bottom, innerHeight) - Math.max(place.top, 0);
    };
    const focused = document.activeElement?.closest?.(".end");
    if (focused && heads.has(focused) && seen(focused) > 0) return heads.get(focused);
    const most = [...heads.keys()].reduce((best, each) => (seen(each) > Math.max(0, best ? seen(best) : 0) ? each : best), undefined);
    return most && heads.get(most);
  };

  document.addEventListener("keydown", (event) => {
    if (event.altKey || event.ctrlKey || event.metaKey || event.shiftKey) return;
    if (event.key === "Escape") { player.stop(); return; }
    const by = { ArrowRight: 1, ArrowLeft: -1 }[event.key];
    // A table that scrolls sideways, and a list of choices, keep the keys that move in them.
    if (!by || event.target.closest(".wide, select")) return;
    const head = inView();
    if (!head) return;
    event.preventDefault();
    head.go(head.at + by);
  });

  document.addEventListener("click", (event) => {
    const button = event.target.closest("button");
    const head = of(button);
    if (!head) return;
    const { step, voice } = button.dataset;
    if (step) head.go({ first: 0, back: head.at - 1, next: head.at + 1, last: head.last }[step]);
    if (voice === "play") {
      if (player.head === head && player.playing) player.pause();
      else player.play(head);
    }
    if (voice === "before") player.seek(head, -1);
    if (voice === "after") player.seek(head, 1);
  });

  document.addEventListener("change", (event) => {
    if (event.target.dataset.voice !== "speed") return;
    player.speed = Number(event.target.value);
    player.sound.playbackRate = player.speed;
    for (const select of document.querySelectorAll('[data-voice="speed"]')) select.value = event.target.value;
  });
})();
