import type { GridHand } from './grid-hand.ts';
import { bandHeight, headHeight } from './grid-layout.ts';
import type { GridModel } from './grid-model.ts';
import type { Spot } from './grid-place.ts';
import { textScale } from './text-scale.ts';
import { offsetToShow, rowsBeyond, rowsDrawn, rowsInSight, type Sight } from './grid-window.ts';

/** Below this width the grid is a phone's: narrower columns, tag and group under each other. */
const narrowBelow = 560;

export interface SightHost {
  readonly model: GridModel;
  readonly hasModel: boolean;
  readonly hand: GridHand;
  readonly rowHeight: number;
  readonly scroller: HTMLElement | null;
  requestUpdate(): void;
}

/**
 * What of the grid is in sight. Known from scrolling and resizing, so that no key has to measure: a
 * key only sets the offsets that bring its cell in sight.
 */
export class GridSight {
  private sight: Sight = { top: 0, left: 0, height: 600, width: 800 };
  private watched: HTMLElement | null = null;
  /** Offsets that the next drawing scrolls to. */
  private aim: { readonly top: number; readonly left: number } | null = null;
  /** Where the rows stand was last chosen by a hand that scrolled, not by a key. */
  private isScrolled = true;
  private readonly resized = new ResizeObserver(() => this.measure());

  constructor(private readonly host: SightHost) {}

  /** Whole rows in sight. */
  get page(): number {
    return rowsInSight(this.sight, this.host.rowHeight);
  }

  /** Rows to draw, `[from, to)`. */
  get drawn(): readonly [number, number] {
    const { rowHeight, model } = this.host;
    const beyond = this.isScrolled ? rowsBeyond.scrolled : rowsBeyond.typed;
    return rowsDrawn(this.sight, rowHeight, model.sheet.rows.length, beyond);
  }

  watch(scroller: HTMLElement | null): void {
    if (scroller === this.watched) return;
    this.resized.disconnect();
    this.watched = scroller;
    if (scroller) this.resized.observe(scroller);
  }

  stop(): void {
    this.resized.disconnect();
    this.watched = null;
  }

  private measure(): void {
    const { scroller } = this.host;
    if (!scroller || !this.host.hasModel) return;
    const scale = textScale();
    this.host.model.scaleTo(scale);
    this.host.model.narrow(scroller.clientWidth < narrowBelow * scale);
    const hadWidth = this.sight.width;
    this.look();
    if (this.sight.width !== hadWidth) this.showOpenDay();
  }

  /** A hand begins to scroll: what will come in sight is drawn before the browser says so. */
  readonly nearing = {
    handleEvent: (): void => {
      if (this.host.hasModel) this.take(this.sight, true);
    },
    passive: true,
  };

  readonly look = (): void => {
    const { scroller } = this.host;
    if (!scroller || !this.host.hasModel) return;
    const { model } = this.host;
    const { animalWidth } = model.sheet.layout;
    const top = scroller.scrollTop;
    const sight = {
      top,
      left: scroller.scrollLeft,
      height: scroller.clientHeight - (bandHeight + headHeight) * model.scale,
      width: scroller.clientWidth - animalWidth,
    };
    // What a key brings in sight is known before it is scrolled there, but for a part of a pixel.
    this.take(sight, this.isScrolled || Math.abs(top - this.sight.top) > 1);
  };

  private take(sight: Sight, isScrolled: boolean): void {
    const before = this.drawn;
    this.sight = sight;
    this.isScrolled = isScrolled;
    const after = this.drawn;
    if (before[0] !== after[0] || before[1] !== after[1]) this.host.requestUpdate();
  }

  /** The open day beside the animals; on a phone from its first count on. */
  showOpenDay(): void {
    if (!this.host.hasModel) return;
    const { scroller, model, hand } = this.host;
    const { width, animalWidth, days } = model.sheet.layout;
    const open = days.find((day) => day.isOpen);
    if (!scroller || !open || width - animalWidth <= this.sight.width) return;
    const first = model.isPhone && hand.column?.isOpen ? hand.column.left : open.left;
    scroller.scrollLeft = first - animalWidth;
    this.look();
  }

  /** Brings a cell in sight with the next drawing, moving least. */
  show(spot: Spot): void {
    const { scroller, model, rowHeight } = this.host;
    const column = model.sheet.layout.columns[spot.column];
    if (!scroller || !column) return;
    const { sight } = this;
    const top = offsetToShow(sight.top, sight.height, spot.row * rowHeight, rowHeight);
    const start = column.left - model.sheet.layout.animalWidth;
    const left = offsetToShow(sight.left, sight.width, start, column.width);
    this.take({ ...sight, top, left }, false);
    if (top === sight.top && left === sight.left) return;
    this.aim = { top, left };
    this.host.requestUpdate();
  }

  /** Scrolls to where {@link show} aimed. */
  scroll(): void {
    const { aim } = this;
    const { scroller } = this.host;
    this.aim = null;
    if (!aim || !scroller) return;
    if (scroller.scrollTop !== aim.top) scroller.scrollTop = aim.top;
    if (scroller.scrollLeft !== aim.left) scroller.scrollLeft = aim.left;
  }
}
