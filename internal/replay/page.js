'use strict';
(() => {
  const film = JSON.parse(document.getElementById('film-data').textContent);
  const byId = id => document.getElementById(id);
  const last = film.tick.length - 1;
  const still = matchMedia('(prefers-reduced-motion: reduce)');
  const cut = new Set(film.cuts);
  const boards = film.views.map((v, i) => {
    const svg = document.querySelectorAll('figure svg')[i];
    const all = c => [...svg.querySelectorAll('.' + c)];
    return {v, bodies: film.bodies.map((_, b) => all('b' + b)[0]), trails: film.bodies.map((_, b) => all('t' + b)[0].querySelector('path')),
      rings: film.bodies.map((_, b) => all('r' + b)[0]), ball: all('ball')[0], legs: all('leg'), chances: all('chance'), left: all('left')};
  });
  const items = [...document.querySelectorAll('.steps li')];
  const caption = document.querySelector('figcaption');
  const play = byId('play'), slider = byId('slider'), clock = byId('clock'), speed = byId('speed');
  let at = 0, playing = false, then = 0, shown = -1;

  const place = (way, f) => { // dm, between two frames
    const i = Math.min(Math.floor(f), last), share = f - i;
    if (share === 0 || cut.has(i + 1)) return [way[2 * i] / 10, way[2 * i + 1] / 10];
    return [0, 1].map(k => (way[2 * i + k] * (1 - share) + way[2 * i + 2 + k] * share) / 10);
  };
  const onto = (v, [x, y]) => [v[0] * x + v[2] * y + v[4], v[1] * x + v[3] * y + v[5]];
  const move = (g, p) => g.setAttribute('transform', 'translate(' + p[0].toFixed(1) + ' ' + p[1].toFixed(1) + ')');
  const show = (g, yes) => g.setAttribute('visibility', yes ? 'visible' : 'hidden');

  function draw() {
    const i = Math.min(Math.floor(at + 1e-6), last);
    for (const b of boards) {
      film.bodies.forEach((way, n) => {
        const here = onto(b.v, place(way, at));
        move(b.bodies[n], here);
        show(b.rings[n], film.presser[i] === n);
        let line = 'M' + here.map(x => x.toFixed(1)).join(' ');
        for (let f = i; f > 0 && f > i - 20 && !cut.has(f); f -= 2) line += 'L' + onto(b.v, place(way, f - 1)).map(x => x.toFixed(1)).join(' ');
        b.trails[n].setAttribute('d', line);
      });
      const c = onto(b.v, place(film.ball, at));
      if (film.carried[i]) { c[0] += b.v[6]; c[1] += b.v[6]; }
      move(b.ball, c);
      b.legs.forEach((g, n) => {
        const [from, to] = film.legs[n];
        show(g, i >= from);
        g.setAttribute('opacity', i < to + 5 ? 1 : i < to + 60 ? 0.4 : 0.15);
      });
      b.chances.forEach((g, n) => show(g, i >= film.legs[n][0] && i < film.legs[n][1] + 5));
      b.left.forEach((g, n) => { // their arrows, then their chances
        const [from, until] = film.left[n % film.left.length];
        show(g, i >= from && i < (playing ? until : from + 4));
      });
    }
    let now = 0;
    film.steps.forEach((s, n) => { if (s.frame <= i) now = n; });
    const first = film.steps.findIndex(s => s.frame === film.steps[now].frame);
    if (now !== shown) {
      shown = now;
      caption.textContent = '';
      const time = document.createElement('b');
      time.textContent = film.steps[now].seconds.toFixed(1) + ' s';
      caption.append(time, film.steps.slice(first, now + 1).map(s => s.what).join(' '));
      items.forEach((li, n) => n >= first && n <= now ? li.setAttribute('aria-current', 'true') : li.removeAttribute('aria-current'));
      const list = items[now].parentElement;
      if (list.scrollHeight > list.clientHeight) list.scrollTop = items[first].offsetTop - list.clientHeight / 3;
    }
    slider.value = i;
    slider.setAttribute('aria-valuetext', (film.tick[i] / 10).toFixed(1) + ' seconds');
    clock.textContent = (film.tick[i] / 10).toFixed(1) + ' s';
  }
  const frames = [...new Set(film.steps.map(s => s.frame))];
  const next = () => frames.find(f => f > at + 1e-6);
  const before = () => frames.filter(f => f < at - 1e-6).pop();

  function stop() {
    playing = false;
    play.textContent = 'Play';
    caption.setAttribute('aria-live', 'polite');
    draw();
  }
  function start() {
    if (at >= last - 1e-6 || still.matches && next() === undefined) at = 0;
    playing = true;
    then = performance.now();
    play.textContent = 'Pause';
    caption.setAttribute('aria-live', 'off');
    requestAnimationFrame(tick);
  }
  function tick(now) {
    if (!playing) return;
    const rate = Number(speed.value);
    if (still.matches) { // from event to event, without motion
      if (now - then > 2000 / rate) {
        then = now;
        if (next() === undefined) return stop();
        at = next();
        draw();
      }
    } else {
      at = Math.min(at + (now - then) / 100 * rate, last);
      then = now;
      draw();
      if (at >= last) return stop();
    }
    requestAnimationFrame(tick);
  }
  function go(frame) {
    if (frame === undefined) return;
    at = frame;
    stop();
  }
  play.onclick = () => playing ? stop() : start();
  byId('next').onclick = () => go(next());
  byId('back').onclick = () => go(before());
  slider.oninput = () => go(Number(slider.value));
  slider.max = last;
  items.forEach((li, n) => {
    const button = document.createElement('button');
    button.type = 'button';
    button.append(...li.childNodes);
    button.onclick = () => go(film.steps[n].frame);
    li.append(button);
  });
  document.addEventListener('keydown', e => {
    if (e.altKey || e.ctrlKey || e.metaKey || /^(INPUT|SELECT)$/.test(e.target.tagName)) return;
    const act = {ArrowRight: () => go(next()), ArrowLeft: () => go(before()), Home: () => go(0), End: () => go(last)};
    if (e.key === ' ' && e.target.tagName !== 'BUTTON') act[' '] = play.onclick;
    if (act[e.key]) { e.preventDefault(); act[e.key](); }
  });
  addEventListener('beforeprint', () => { at = last; stop(); for (const b of boards) { b.legs.forEach(g => g.setAttribute('opacity', 1)); b.chances.forEach(g => show(g, true)); } });
  const asked = Number(new URLSearchParams(location.hash.slice(1)).get('t'));
  at = frames.reduce((near, f) => Math.abs(film.tick[f] - 10 * asked) < Math.abs(film.tick[near] - 10 * asked) ? f : near, 0);
  byId('controls').hidden = false;
  stop();
})();
