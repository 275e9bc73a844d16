// SPDX-License-Identifier: GPL-3.0-or-later
// A map from outlines of land and borders alone: drag, zoom, tap to set the mark; arrow keys move the mark. It needs no internet.
import { useEffect, useRef, useState } from "preact/hooks";
import { show } from "./numbers";
import { outlines, type Line, type Outlines } from "./outlines";
import { say } from "./words";

export interface Spot { lat: number; lon: number }
interface View { lat: number; lon: number; zoom: number } /* zoom: pixels a degree of latitude */
const LEAST = 1.9, MOST = 260, START = 9, FINEST_PX = 1.5;
/** Lines of latitude and longitude stand so far apart that their numbers find room. */
const GRID_DEG = [0.5, 1, 2, 5, 10, 30];
const keep = (v: View): View => ({ lat: Math.max(-85, Math.min(85, v.lat)), lon: ((v.lon + 540) % 360) - 180, zoom: Math.max(LEAST, Math.min(MOST, v.zoom)) });
/** Degrees of longitude shrink with the middle's latitude: shapes near the middle keep their form. */
const squeeze = (lat: number): number => Math.max(0.2, Math.cos((lat * Math.PI) / 180));

/** Points closer together than a screen can show are left out, but for the last. */
function trace(pen: CanvasRenderingContext2D, line: Line, x: (lon: number) => number, y: (lat: number) => number): void {
  const { points } = line;
  let px = Infinity, py = Infinity;
  pen.beginPath();
  for (let i = 0; i < points.length; i += 2) {
    const nx = x(points[i] ?? 0), ny = y(points[i + 1] ?? 0);
    if (Math.abs(nx - px) + Math.abs(ny - py) < FINEST_PX && i < points.length - 2) continue;
    pen.lineTo(nx, ny);
    px = nx;
    py = ny;
  }
}

function draw(canvas: HTMLCanvasElement, map: Outlines | null, v: View, mark: Spot | null, dots: Spot[]): void {
  const pen = canvas.getContext("2d"), style = getComputedStyle(canvas), colour = (name: string): string => style.getPropertyValue(name);
  if (!pen) return;
  const scale = devicePixelRatio || 1, wide = canvas.clientWidth, tall = canvas.clientHeight, sx = v.zoom * squeeze(v.lat), sy = v.zoom;
  canvas.width = wide * scale;
  canvas.height = tall * scale;
  pen.setTransform(scale, 0, 0, scale, 0, 0);
  pen.fillStyle = colour("--water");
  pen.fillRect(0, 0, wide, tall);
  const west = v.lon - wide / 2 / sx, east = v.lon + wide / 2 / sx, south = v.lat - tall / 2 / sy, north = v.lat + tall / 2 / sy;
  const x = (lon: number): number => wide / 2 + (lon - v.lon) * sx, y = (lat: number): number => tall / 2 - (lat - v.lat) * sy;
  pen.lineJoin = "round";
  /* A coast may be told one turn of the Earth away: all land comes before the first border. */
  for (const [around, land] of [[-360, true], [0, true], [360, true], [-360, false], [0, false], [360, false]] as const) {
    for (const line of map?.lines ?? []) {
      if (line.land !== land) continue;
      if (line.east + around < west || line.west + around > east || line.north < south || line.south > north) continue;
      if (Math.max((line.east - line.west) * sx, (line.north - line.south) * sy) < FINEST_PX) continue;
      trace(pen, line, (lon) => x(lon + around), y);
      if (line.land) { pen.closePath(); pen.fillStyle = colour("--land"); pen.fill(); }
      pen.setLineDash(line.land ? [] : [4, 3]);
      pen.strokeStyle = colour(line.land ? "--shore" : "--edge");
      pen.lineWidth = 1;
      pen.stroke();
    }
    pen.setLineDash([]);
    for (const dot of land ? [] : dots) {
      pen.beginPath();
      pen.arc(x(dot.lon + around), y(dot.lat), 5, 0, 7);
      pen.fillStyle = colour("--ground");
      pen.fill();
      pen.strokeStyle = colour("--text");
      pen.lineWidth = 2;
      pen.stroke();
    }
  }
  const grid = GRID_DEG.find((s) => s * sy >= 70) ?? 30, across = GRID_DEG.find((s) => s * sx >= 70) ?? 30;
  pen.strokeStyle = colour("--edge");
  pen.fillStyle = colour("--text");
  pen.globalAlpha = 0.35;
  pen.beginPath();
  for (let lon = Math.ceil(west / across) * across; lon <= east; lon += across) { pen.moveTo(x(lon), 0); pen.lineTo(x(lon), tall); }
  for (let lat = Math.ceil(south / grid) * grid; lat <= north; lat += grid) { pen.moveTo(0, y(lat)); pen.lineTo(wide, y(lat)); }
  pen.stroke();
  pen.globalAlpha = 1;
  pen.font = "12px system-ui, sans-serif";
  for (let lat = Math.ceil(south / grid) * grid; lat <= north; lat += grid) if (y(lat) > 14 && y(lat) < tall - 18) pen.fillText(`${show(lat, 3)}°`, 3, y(lat) - 3);
  for (let lon = Math.ceil(west / across) * across; lon <= east; lon += across) if (x(lon) > 34 && x(lon) < wide - 34) pen.fillText(`${show(((lon + 540) % 360) - 180, 3)}°`, x(lon) + 3, tall - 5);
  if (mark) lampMark(pen, x(mark.lon), y(mark.lat), colour);
}

/** The mark is a lamp: its foot stands on the place. */
function lampMark(pen: CanvasRenderingContext2D, x: number, y: number, colour: (name: string) => string): void {
  const stroke = (width: number, ink: string): void => {
    pen.beginPath();
    pen.moveTo(x, y);
    pen.lineTo(x, y - 30);
    pen.lineTo(x + 12, y - 30);
    pen.lineWidth = width;
    pen.strokeStyle = ink;
    pen.stroke();
  };
  stroke(7, colour("--ground"));
  stroke(3, colour("--text"));
  pen.beginPath();
  pen.arc(x + 12, y - 28, 6, 0, 7);
  pen.fillStyle = colour("--lamp");
  pen.fill();
  pen.lineWidth = 2;
  pen.strokeStyle = colour("--text");
  pen.stroke();
  pen.beginPath();
  pen.arc(x, y, 4, 0, 7);
  pen.fillStyle = colour("--text");
  pen.fill();
}

export function PlaceMap({ mark, dots, set }: { mark: Spot | null; dots: Spot[]; set: (spot: Spot) => void }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const [map, setMap] = useState<Outlines | null>(null);
  const [view, setView] = useState<View>(() => (mark ? { ...mark, zoom: START } : { lat: 8, lon: 20, zoom: 2.2 }));
  const hold = useRef<{ x: number; y: number; moved: boolean; fingers: Map<number, { x: number; y: number }> }>({ x: 0, y: 0, moved: false, fingers: new Map() });
  useEffect(() => { outlines().then(setMap, () => undefined); }, []);
  useEffect(() => { if (mark) setView((v) => keep({ ...v, ...mark, zoom: Math.max(v.zoom, START) })); }, [mark?.lat, mark?.lon]);
  useEffect(() => {
    /* Once a frame, however many things ask for it. */
    let frame = 0;
    const paint = (): void => { frame ||= requestAnimationFrame(() => { frame = 0; if (canvas.current) draw(canvas.current, map, view, mark, dots); }); };
    paint();
    const theme = new MutationObserver(paint), size = new ResizeObserver(paint);
    theme.observe(document.documentElement, { attributes: true, attributeFilter: ["data-theme"] });
    if (canvas.current) size.observe(canvas.current);
    return () => { cancelAnimationFrame(frame); theme.disconnect(); size.disconnect(); };
  }, [map, view, mark?.lat, mark?.lon, dots]);

  const zoom = (by: number): void => setView((v) => keep({ ...v, zoom: v.zoom * by }));
  const spotAt = (px: number, py: number): Spot => {
    const box = canvas.current?.getBoundingClientRect();
    if (!box) return view;
    const spot = keep({ zoom: view.zoom, lon: view.lon + (px - box.left - box.width / 2) / (view.zoom * squeeze(view.lat)), lat: view.lat - (py - box.top - box.height / 2) / view.zoom });
    return { lat: Number(spot.lat.toFixed(2)), lon: Number(spot.lon.toFixed(2)) };
  };
  const down = (e: PointerEvent): void => {
    (e.currentTarget as Element).setPointerCapture(e.pointerId);
    hold.current.fingers.set(e.pointerId, { x: e.clientX, y: e.clientY });
    Object.assign(hold.current, { x: e.clientX, y: e.clientY, moved: hold.current.fingers.size > 1 });
  };
  const move = (e: PointerEvent): void => {
    const { fingers } = hold.current, before = fingers.get(e.pointerId);
    if (!before) return;
    const other = [...fingers].find(([id]) => id !== e.pointerId)?.[1];
    fingers.set(e.pointerId, { x: e.clientX, y: e.clientY });
    if (other) {
      const apart = (p: { x: number; y: number }): number => Math.max(20, Math.hypot(p.x - other.x, p.y - other.y));
      zoom(apart({ x: e.clientX, y: e.clientY }) / apart(before));
    } else if (hold.current.moved || Math.hypot(e.clientX - hold.current.x, e.clientY - hold.current.y) > 6) {
      hold.current.moved = true;
      setView((v) => keep({ ...v, lon: v.lon - (e.clientX - before.x) / (v.zoom * squeeze(v.lat)), lat: v.lat + (e.clientY - before.y) / v.zoom }));
    }
  };
  const up = (e: PointerEvent): void => {
    if (hold.current.fingers.delete(e.pointerId) && !hold.current.moved && e.type === "pointerup") set(spotAt(e.clientX, e.clientY));
  };
  const key = (e: KeyboardEvent): void => {
    const from = mark ?? view, step = Math.max(0.01, 24 / view.zoom);
    const to: Record<string, [number, number]> = { ArrowUp: [step, 0], ArrowDown: [-step, 0], ArrowLeft: [0, -step], ArrowRight: [0, step] };
    const by = to[e.key];
    if (by) { const spot = keep({ lat: from.lat + by[0], lon: from.lon + by[1], zoom: 1 }); set({ lat: Number(spot.lat.toFixed(2)), lon: Number(spot.lon.toFixed(2)) }); }
    else if (e.key === "+" || e.key === "=") zoom(1.6);
    else if (e.key === "-") zoom(1 / 1.6);
    else return;
    e.preventDefault();
  };
  const where = mark ? say("The mark stands at latitude {0}, longitude {1}.", show(mark.lat, 4), show(mark.lon, 4)) : say("No mark yet.");
  return (
    <figure class="map">
      <div class="frame">
        <canvas ref={canvas} tabIndex={0} role="application" aria-label={say("Map. Arrow keys move the mark, plus and minus zoom. {0}", where)} onPointerDown={down} onPointerMove={move} onPointerUp={up} onPointerCancel={up} onKeyDown={key} />
        <div class="zoom">
          <button type="button" aria-label={say("Zoom in")} onClick={() => zoom(1.6)}>+</button>
          <button type="button" aria-label={say("Zoom out")} onClick={() => zoom(1 / 1.6)}>−</button>
        </div>
      </div>
      <figcaption>{say("Drag the map, tap where the lane is. Outlines: Natural Earth, public domain, true to about 3 km; lines of borders say nothing about whose land it is.")}</figcaption>
    </figure>
  );
}
