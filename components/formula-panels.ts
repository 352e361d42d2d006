import type { LitElement } from 'lit';

/** Between the line and a panel, and between a panel and the edge of the window, px. */
const GAP = 4;
const EDGE = 8;
/** A list of names is no taller than this, and wants this much room below before it goes above, px. */
const TALLEST = 360;
const WANTED = 220;
const NARROWEST = 340;

/**
 * The panels of a formula line: the arguments (`.hint-panel`) above it, the names to choose from
 * (`.names-panel`) below, so that what is said under the line stays in sight while the formula is
 * typed. Each is a popover, open while its `data-wanted` is `yes`.
 */
export class FormulaPanels {
  private isFollowing = false;
  private readonly onMove = (): void => this.place();

  constructor(private readonly host: LitElement) {}

  /** Opens and closes what is wanted now; to be called after each drawing. */
  renew(): void {
    const panels = [...this.host.renderRoot.querySelectorAll<HTMLElement>('[data-wanted]')];
    let isAny = false;
    for (const panel of panels) {
      if (!panel.isConnected) return;
      const isWanted = panel.dataset['wanted'] === 'yes';
      isAny ||= isWanted;
      if (isWanted === panel.matches(':popover-open')) continue;
      if (isWanted) panel.showPopover();
      else panel.hidePopover();
    }
    this.follow(isAny);
    if (isAny) requestAnimationFrame(this.onMove);
  }

  /** Follows the window's scrolling and size, or no longer. */
  follow(isOpen: boolean): void {
    if (isOpen === this.isFollowing) return;
    this.isFollowing = isOpen;
    const listen = isOpen ? window.addEventListener : window.removeEventListener;
    listen.call(window, 'scroll', this.onMove, true);
    listen.call(window, 'resize', this.onMove);
  }

  private opened(name: string): HTMLElement | null {
    return this.host.renderRoot.querySelector<HTMLElement>(`${name}:popover-open`);
  }

  private place(): void {
    const at = this.host.renderRoot.querySelector('input')?.getBoundingClientRect();
    if (!at) return;
    const width = Math.min(Math.max(at.width, NARROWEST), innerWidth - 2 * EDGE);
    const left = Math.max(EDGE, Math.min(at.left, innerWidth - width - EDGE));
    let top = at.top - GAP;
    let bottom = at.bottom + GAP;
    const hint = this.opened('.hint-panel');
    if (hint) {
      set(hint, { left: `${left}px`, width: `${width}px` });
      const height = hint.offsetHeight;
      const isAbove = top - height >= GAP;
      set(hint, { top: `${isAbove ? top - height : bottom}px`, bottom: 'auto' });
      if (isAbove) top -= height + GAP;
      else bottom += height + GAP;
    }
    const names = this.opened('.names-panel');
    if (!names) return;
    const room = innerHeight - bottom - EDGE;
    const isBelow = room >= WANTED || room >= top;
    set(names, {
      left: `${left}px`,
      width: `${width}px`,
      'max-height': `${Math.min(TALLEST, isBelow ? room : top - EDGE)}px`,
      top: isBelow ? `${bottom}px` : 'auto',
      bottom: isBelow ? 'auto' : `${innerHeight - top}px`,
    });
  }
}

function set(panel: HTMLElement, styles: Readonly<Record<string, string>>): void {
  for (const [name, value] of Object.entries(styles)) panel.style.setProperty(name, value);
}
