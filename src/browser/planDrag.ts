/**
 * The pedal plan under the hand: a ring is drawn along the line by finger, pen or mouse and stays at the nearest beat or onset; a tap on a
 * ring, or on the line between, asks what the foot should do there. The server draws the line anew, so that page and reviews agree.
 */
import { change } from './planForms.js';

/** A hand that has not moved so far taps, px. */
const STILL_PX = 6;

/** The place's name stands so far over the ring, px. */
const NAME_OVER_PX = 14;

/** A place where a change can be put. */
interface Place {
  readonly tick: number;
  readonly x: number;
  readonly name: string;
}

/** A ring in the hand. */
interface Held {
  readonly grip: SVGGElement;
  readonly ground: SVGRectElement;
  readonly pointerId: number;
  readonly startX: number;
  /** Places that it may go to, its own among them. */
  readonly places: readonly Place[];
  readonly own: Place;
  target: Place;
  moved: boolean;
}

/** Lets rings be dragged and the line be tapped; the style sheet shows that they can. */
export function startPlanDrag(): void {
  if (document.querySelector('#plan-panel') === null) return;
  document.documentElement.classList.add('plan-live');
  showHints();
  let held: Held | null = null;
  const end = (event: PointerEvent, keep: boolean): void => {
    if (held === null || event.pointerId !== held.pointerId) return;
    const done = held;
    held = null;
    letGo(done, keep);
  };
  // a finger on a ring moves the ring and not the page
  document.addEventListener('touchstart', (event) => {
    if (event.target instanceof Element && event.target.closest('.plan-grip') !== null) event.preventDefault();
  }, { passive: false });
  document.addEventListener('pointerdown', (event) => (held = held ?? take(event)));
  document.addEventListener('pointermove', (event) => {
    if (held !== null && event.pointerId === held.pointerId) drag(held, event.clientX);
  });
  document.addEventListener('pointerup', (event) => end(event, true));
  document.addEventListener('pointercancel', (event) => end(event, false));
  document.addEventListener('keydown', (event) => {
    if (event.key === 'Escape' && held !== null) {
      letGo(held, false);
      held = null;
    }
  });
  document.addEventListener('click', (event) => tapLine(event));
}

/** Says that rings can be dragged, also after the panel was replaced. */
export function showHints(): void {
  document.querySelector('[data-plan-drag]')?.removeAttribute('hidden');
}

/** A ring under a finger or the main button. */
function take(event: PointerEvent): Held | null {
  const grip = event.target instanceof Element ? event.target.closest<SVGGElement>('.plan-grip') : null;
  const ground = grip?.parentElement?.querySelector<SVGRectElement>('.plan-ground') ?? null;
  if (grip === null || ground === null || event.button !== 0) return null;
  const tick = Number(grip.dataset['tick']);
  const all = placesOf(ground);
  const own = all.find((place) => place.tick === tick) ?? { tick, x: Number(grip.querySelector('circle')?.getAttribute('cx')), name: '' };
  const [after, before] = [Number(grip.dataset['after'] ?? Infinity), Number(grip.dataset['before'] ?? -Infinity)];
  event.preventDefault();
  grip.setPointerCapture(event.pointerId);
  return { grip, ground, pointerId: event.pointerId, startX: event.clientX, places: [own, ...all.filter((place) => place.tick > after && place.tick < before)], own, target: own, moved: false };
}

/** Follows the hand to the nearest place. */
function drag(held: Held, clientX: number): void {
  if (!held.moved && Math.abs(clientX - held.startX) < STILL_PX) return;
  held.moved = true;
  const x = held.own.x + (clientX - held.startX) / scaleOf(held.ground);
  held.target = nearest(held.places, x) ?? held.own;
  held.grip.classList.add('held');
  held.grip.setAttribute('transform', `translate(${held.target.x - held.own.x} 0)`);
  label(held.grip, held.own.x, held.target.name);
}

/** The end of a drag or a tap. */
function letGo({ grip, own, target, moved }: Held, keep: boolean): void {
  grip.querySelector('text')?.remove();
  grip.classList.remove('held');
  if (!keep || target === own) grip.removeAttribute('transform');
  if (!keep) return;
  if (!moved) ask(own, grip.dataset['after'] !== undefined);
  else if (target !== own) void send({ act: 'move', at: String(own.tick), to: String(target.tick) }).then(showHints);
}

/** A tap on the line between the rings. */
function tapLine(event: MouseEvent): void {
  const ground = event.target instanceof Element ? event.target.closest<SVGRectElement>('.plan-ground') : null;
  if (ground === null) return;
  const x = (event.clientX - ground.getBoundingClientRect().left) / scaleOf(ground) + Number(ground.getAttribute('x'));
  const place = nearest(placesOf(ground), x);
  if (place !== null) ask(place, false);
}

/** Asks what the foot should do at a place. */
function ask(place: Place, removable: boolean): void {
  const menu = document.querySelector<HTMLDialogElement>('[data-plan-menu]');
  const at = menu?.querySelector<HTMLInputElement>('input[name="at"]');
  const title = menu?.querySelector('h2');
  if (!menu || !at || !title) return;
  at.value = String(place.tick);
  title.textContent = `Pedal, ${place.name}`;
  menu.querySelector('[data-plan-remove]')?.toggleAttribute('hidden', !removable);
  menu.showModal();
}

/** Sends a change to where the menu's form goes. */
async function send(fields: Readonly<Record<string, string>>): Promise<void> {
  const action = document.querySelector<HTMLFormElement>('[data-plan-menu] form[data-plan-form]')?.action;
  if (action === undefined) return;
  const data = new FormData();
  for (const [name, value] of Object.entries(fields)) data.set(name, value);
  await change(action, data);
}

/** The name of the place over the ring in the hand. */
function label(grip: SVGGElement, x: number, text: string): void {
  const known = grip.querySelector('text');
  const name = known ?? document.createElementNS('http://www.w3.org/2000/svg', 'text');
  name.setAttribute('class', 'plan-where');
  name.setAttribute('x', String(x));
  name.setAttribute('y', String(-NAME_OVER_PX));
  name.textContent = text;
  if (known === null) grip.append(name);
}

/** Places that the drawing brought along: "tick|x|name;…". */
function placesOf(ground: SVGRectElement): readonly Place[] {
  return (ground.dataset['places'] ?? '').split(';').filter((one) => one !== '').map((one) => {
    const [tick, x, name = ''] = one.split('|');
    return { tick: Number(tick), x: Number(x), name };
  });
}

/** The place nearest to an x. */
function nearest(places: readonly Place[], x: number): Place | null {
  return places.reduce<Place | null>((best, place) => (best === null || Math.abs(place.x - x) < Math.abs(best.x - x) ? place : best), null);
}

/** Screen pixels a unit of the drawing. */
function scaleOf(element: SVGGraphicsElement): number {
  return element.getScreenCTM()?.a ?? 1;
}
