for (const box of document.querySelectorAll('.slider')) {
  const table = document.getElementById(box.dataset.table);
  const rows = [...table.tBodies[0].rows];
  const heads = [...table.tHead.rows[0].cells].map(c => c.textContent.trim());
  const input = box.querySelector('input'), out = box.querySelector('output');
  const plots = [...box.closest('section').querySelectorAll('svg[data-plot]')].map(svg => {
    const line = document.createElementNS(svg.namespaceURI, 'path');
    line.setAttribute('class', 'day');
    svg.append(line);
    return {svg, line, p: svg.dataset.plot.split(' ').map(Number)};
  });
  if (!rows.length) continue;
  box.hidden = false;
  input.max = rows.length - 1;
  const show = i => {
    const cells = [...rows[i].cells].map(c => c.textContent.trim());
    out.textContent = cells[0] + ': ' + heads.slice(1).map((h, k) => h + ' ' + cells[k + 1]).join(' · ');
    input.value = i;
    input.setAttribute('aria-valuetext', cells[0]);
    for (const {svg, line, p: [a, b, c, d]} of plots) {
      const x = a + (b - a) * (rows[i].dataset.x - c) / (d - c);
      line.setAttribute('d', `M${x.toFixed(1)} 14V${svg.viewBox.baseVal.height - 24}`);
    }
  };
  input.addEventListener('input', () => show(+input.value));
  for (const {svg, p: [a, b, c, d]} of plots) svg.addEventListener('pointermove', e => {
    const r = svg.getBoundingClientRect();
    const at = c + ((e.clientX - r.left) / r.width * svg.viewBox.baseVal.width - a) / (b - a) * (d - c);
    let best = 0;
    rows.forEach((row, i) => { if (Math.abs(row.dataset.x - at) < Math.abs(rows[best].dataset.x - at)) best = i; });
    if (at >= c && at <= d) show(best);
  });
}
