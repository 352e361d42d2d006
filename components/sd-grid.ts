import { LitElement, html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { guard } from 'lit/directives/guard.js';
import { repeat } from 'lit/directives/repeat.js';
import { styleMap } from './style-map.ts';
import { dayOf } from '../src/notebook/read.ts';
import type { Session } from '../src/session/session.ts';
import { Announcer, type Words } from './announcer.ts';
import { CellEditor } from './cell-editor.ts';
import { bandTemplate, headTemplate, onBandKey, rowTemplate } from './grid-cells.ts';
import { GridFocus } from './grid-focus.ts';
import { GridHand, type HandHost } from './grid-hand.ts';
import { commandOf, isTyping } from './grid-keys.ts';
import { bandHeight, headHeight, type GridDay } from './grid-layout.ts';
import { gridLook } from './grid-look.ts';
import { gridCellLook } from './grid-cell-look.ts';
import { GridMenus } from './grid-menus.ts';
import { GridModel } from './grid-model.ts';
import { noFilter } from './grid-rows.ts';
import { GridMouse } from './grid-mouse.ts';
import { GridPaste } from './grid-paste.ts';
import { spotOf, type Place, type Spot } from './grid-place.ts';
import { countedOf, gridName, gridWords, nothingToCount } from './grid-sentences.ts';
import { GridSight } from './grid-sight.ts';
import { GridView } from './grid-view.ts';
import { naming } from './naming.ts';
import { settled } from './next-frame.ts';
import { Select } from './selector-controller.ts';
import { theme } from './theme.ts';
import './sd-grid-tools.ts';

/**
 * The counts: a row for every animal present on the open day, a group of columns for every sampling
 * day. One shadow root; rows are drawn only where they can be seen, and the row that has the focus
 * always, so that scrolling never loses it. A typed count draws one row again.
 *
 * Fires `sd-focus-cell` (detail: row, day, column) when the focus moves, `sd-open-day` (detail: day)
 * when the heading of a day that is not open is used, `sd-show-animal` (detail: row) for a tag.
 */
export class SdGrid extends LitElement implements HandHost {
  static override properties = { label: { type: String } };

  static override styles = [...theme, gridLook, gridCellLook];

  /** Called this aloud, before the name of the open day. */
  declare label: string;

  /** Waits for what else is drawn for the same key: drawn before, it is laid out along with the grid. */
  drawnFirst: () => Promise<unknown> = () => Promise.resolve();

  /** How the counts are looked at; from outside, where it is to outlive this grid. */
  view = new GridView();

  readonly editor: CellEditor;
  readonly hand: GridHand;
  private readonly announcer = new Announcer(this, (text) => {
    // What is said before the grid has drawn stands there once it has.
    if (!this.showSaid(text)) void this.updateComplete.then(() => this.showSaid(text));
  });
  private readonly menus: GridMenus;
  private readonly mouse: GridMouse;
  private readonly paste: GridPaste;
  private readonly session = new Select<Session>(this, (session) => session, { when: () => false });
  private held: GridModel | undefined;
  private lastFollowed: string | undefined;
  private stops: (() => void)[] = [];
  private readonly sight: GridSight;
  private readonly focusing = new GridFocus(this);
  private readonly coarse = matchMedia('(pointer: coarse)');

  constructor() {
    super();
    this.label = gridWords.counts;
    this.editor = new CellEditor({
      mayBegin: () => this.hand.mayType(),
      began: () => this.hand.began(),
      enter: () => this.hand.run({ do: 'commit', then: 'down' }),
      changed: () => this.menus.close(),
    });
    this.editor.input.addEventListener('focus', () => (this.editor.hasFocus = true));
    this.editor.input.addEventListener('blur', this.onBlur);
    this.hand = new GridHand(this);
    this.menus = new GridMenus(this);
    this.mouse = new GridMouse(this, this.menus);
    this.paste = new GridPaste(this);
    this.sight = new GridSight(this);
  }

  get model(): GridModel {
    if (!this.held) throw new Error('The grid has no notebook yet.');
    return this.held;
  }

  get hasModel(): boolean {
    return this.held !== undefined;
  }

  get rowHeight(): number {
    return (this.coarse.matches ? 48 : 40) * (this.held?.scale ?? 1);
  }

  get page(): number {
    return this.sight.page;
  }

  get scroller(): HTMLElement | null {
    return this.renderRoot.querySelector('.scroller');
  }

  override connectedCallback(): void {
    super.connectedCallback();
    this.requestUpdate();
    this.stops.push(naming.subscribe(() => this.requestUpdate()));
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.sight.stop();
    this.stops.forEach((stop) => stop());
    this.stops = [];
    this.held = undefined;
  }

  /** One typed count comes to several notices; they are drawn together. */
  protected override async scheduleUpdate(): Promise<void> {
    if (this.hasUpdated) await this.focusing.turn();
    if (this.focusing.isDue) await settled(this.held?.session).then(this.drawnFirst);
    await super.scheduleUpdate();
  }

  protected override willUpdate(): void {
    const session = this.session.value;
    if (session && this.isConnected && this.held?.session !== session) this.follow(session);
    if (this.held) this.hand.keep();
  }

  private follow(session: Session): void {
    const model = new GridModel(session, () => this.requestUpdate(), this.view);
    // Put back in another place of the page, or where another tab took the writing over, the focus and what
    // is being typed stay with their cell; another notebook begins anew.
    const notebook = session.notebook.id;
    if (notebook !== this.lastFollowed) this.hand.beginAnew();
    this.lastFollowed = notebook;
    this.held = model;
    this.stops.push(
      session.subscribe((notice) => {
        if (this.held !== model) return;
        const before = model.sheet.layout;
        const day = model.openDay;
        model.take(notice);
        const opened = before.days.find((d) => d.isOpen)?.id;
        if (opened !== day) {
          if (opened === undefined) this.hand.comeBack();
          else this.hand.toOpenDay();
          void this.updateComplete.then(() => this.sight.showOpenDay());
        }
        const source = notice.transaction?.source;
        if (source === 'undo' || source === 'redo')
          this.toChange(notice.transaction?.changes[0]?.path);
      }),
    );
  }

  /** After undo the focus goes to what was undone, so that it is seen. */
  private toChange(path: readonly string[] | undefined): void {
    if (!path || path[0] !== 'readings' || !this.editor.hasFocus) return;
    const [, day = '', row = '', column = ''] = path;
    const spot = spotOf(this.model.sheet, { day, row, column });
    if (spot) this.hand.go(spot);
  }

  protected override update(changed: PropertyValues): void {
    this.focusing.isPlacing = true;
    super.update(changed);
    this.focusing.place();
    // After the focus, which has the page laid out: to scroll then asks for no layout of its own.
    this.sight.scroll();
  }

  protected override updated(): void {
    this.sight.watch(this.scroller);
  }

  private showSaid(text: string): boolean {
    const status = this.shadowRoot?.getElementById('status');
    status?.replaceChildren(text);
    // Two lines show; of more, the whole is a hover away.
    if (status) status.title = text.length > 60 ? text : '';
    return Boolean(status);
  }

  show(spot: Spot): void {
    this.sight.show(spot);
  }

  settle(focus: boolean): void {
    this.focusing.settle(focus);
  }

  /** Puts the focus into the grid. */
  override focus(): void {
    this.settle(true);
  }

  /** Goes to an animal's row and puts the focus there; a filter that hides it is lifted, where it was asked for. */
  showAnimal(row: string, isAskedFor = true): void {
    if (!this.held) return;
    if (isAskedFor && !this.held.sheet.rowIndex.has(row)) this.held.filterBy(noFilter);
    this.mouse.toRow(row);
    this.focus();
  }

  say(sentence: Words): void {
    this.announcer.say(sentence);
  }

  moved(place: Place): void {
    this.dispatchEvent(
      new CustomEvent('sd-focus-cell', { detail: place, bubbles: true, composed: true }),
    );
  }

  private readonly onBlur = (event: FocusEvent): void => {
    if (this.focusing.isPlacing) return;
    // The whole window lost the focus: what is being typed stays as it is until it comes back.
    if (event.relatedTarget === null && !document.hasFocus()) return;
    this.editor.hasFocus = false;
    this.focusing.isDue = false;
    // Into a menu of the grid's own the focus only goes to come back.
    if (!isInMenu(event.relatedTarget)) this.menus.close();
    if (this.held) this.hand.leave();
  };

  private onKeydown(event: KeyboardEvent): void {
    if (event.isComposing || event.composedPath()[0] !== this.editor.input) return;
    if (this.menus.takesKey(event)) return;
    const command = commandOf(event, this.editor.editing);
    if (!command) {
      if (this.editor.editing === 'no' && isTyping(event) && !this.hand.mayType())
        event.preventDefault();
      return;
    }
    event.preventDefault();
    event.stopPropagation();
    if (command.do === 'find') this.renderRoot.querySelector('sd-grid-tools')?.find();
    else if (command.do === 'choices') this.menus.openChoices();
    else if (command.do === 'column menu') this.menus.openColumn();
    else this.hand.run(command);
  }

  private readonly onScroll = (): void => {
    this.sight.look();
    this.menus.follow();
  };

  private openDay(day: GridDay): void {
    if (day.isOpen) return;
    this.hand.commit();
    this.dispatchEvent(
      new CustomEvent('sd-open-day', { detail: { day: day.id }, bubbles: true, composed: true }),
    );
  }

  private foldDay(day: GridDay): void {
    this.model.fold(day.id, day.fold === 'columns' ? 'figure' : 'columns');
  }

  protected override render(): TemplateResult | typeof nothing {
    const model = this.held;
    if (!model) return nothing;
    if (model.openDay === null || model.rows.length === 0)
      return html`<p class="empty">${nothingToCount(model)}</p>`;
    const { layout, rows } = model.sheet;
    const day = dayOf(model.session.notebook, model.openDay);
    const name = layout.days.find((d) => d.isOpen)?.name ?? day?.date ?? '';
    return html`
      <sd-grid-tools
        .model=${model}
        .revision=${model.revision}
        @sd-found=${(event: CustomEvent<{ row: string }>) => this.mouse.toRow(event.detail.row)}
        @sd-back=${() => this.focus()}
        @sd-say=${(event: CustomEvent<{ sentence: string }>) => this.say(event.detail.sentence)}
      ></sd-grid-tools>
      <div
        class=${naming.isOn ? 'scroller naming' : 'scroller'}
        style=${styleMap(this.measures())}
        @scroll=${this.onScroll}
        @wheel=${this.sight.nearing}
        @touchmove=${this.sight.nearing}
        @keydown=${this.onKeydown}
        @mousedown=${this.mouse.down}
        @mousemove=${this.mouse.move}
        @dblclick=${this.mouse.double}
        @contextmenu=${this.mouse.context}
        @click=${this.mouse.click}
        @copy=${this.paste.copy}
        @cut=${this.paste.cut}
        @paste=${this.paste.paste}
      >
        <div class="band" role="toolbar" aria-label=${gridWords.days} @keydown=${onBandKey}>
          <div class="corner"></div>
          ${guard([layout], () => bandTemplate(layout.days, this.bandHeard, this.bandStop(layout.days)))}
        </div>
        <div
          class=${model.isPhone ? 'grid narrow' : 'grid'}
          role="grid"
          aria-label=${gridName(this.label, name)}
          aria-rowcount=${rows.length + 1}
          aria-colcount=${layout.columns.length + 1}
          aria-multiselectable="true"
        >
          ${guard([layout, model.sort], () => headTemplate(layout.columns, layout.days, model.sort))}
          <div class="body" role="rowgroup">${this.rowTemplates()}</div>
        </div>
        ${this.menus.template()}
      </div>
      <p class="visually-hidden" id="reason"></p>
      <div class="foot">
        <p class="status" id="status" role="status"></p>
        <p>${countedOf(model)}</p>
      </div>
      ${this.paste.template()}
    `;
  }

  private readonly bandHeard = {
    open: (day: GridDay): void => this.openDay(day),
    fold: (day: GridDay): void => this.foldDay(day),
  };

  private bandStop(days: readonly GridDay[]): number {
    const open = days.findIndex((day) => day.isOpen);
    return Math.max(0, open);
  }

  private measures(): Record<string, string> {
    const { sheet, scale } = this.model;
    const { layout, rows } = sheet;
    const tracks = [layout.animalWidth, ...layout.columns.map((column) => column.width)];
    return {
      '--row': `${this.rowHeight}px`,
      '--band': `${bandHeight * scale}px`,
      '--head': `${headHeight * scale}px`,
      '--animal': `${layout.animalWidth}px`,
      '--all': `${layout.width}px`,
      '--rows': `${rows.length * this.rowHeight}px`,
      '--columns': tracks.map((width) => `${width}px`).join(' '),
    };
  }

  private rowTemplates(): unknown {
    const { model, rowHeight } = this;
    const { rows, layout, rowIndex } = model.sheet;
    const [from, to] = this.sight.drawn;
    const drawn = rows.slice(from, to).map((row, i) => ({ row, at: from + i }));
    const at = this.hand.active && rowIndex.get(this.hand.active.row);
    const activeRow = at === null || at === undefined ? undefined : rows[at];
    if (activeRow && at !== null && at !== undefined && (at < from || at >= to))
      drawn[at < from ? 'unshift' : 'push']({ row: activeRow, at });
    const block = this.hand.isOneCell ? null : this.hand.block;
    return repeat(
      drawn,
      ({ row }) => row.id,
      ({ row, at: place }) => {
        const isIn = block !== null && place >= block.rows[0] && place <= block.rows[1];
        const selected = isIn ? block.columns : null;
        const key = selected ? selected.join(' ') : '';
        return guard([model.markOf(row.id), layout, place, key, rowHeight], () => {
          const source = model.source(row.id);
          return rowTemplate({
            row,
            at: place,
            rowHeight,
            scale: model.scale,
            columns: layout.columns,
            animalWidth: layout.animalWidth,
            text: (column) => model.cell(source, column),
            selected,
          });
        });
      },
    );
  }
}

function isInMenu(target: EventTarget | null): boolean {
  return target instanceof Element && target.closest('.menu') !== null;
}

customElements.define('sd-grid', SdGrid);

declare global {
  interface HTMLElementTagNameMap {
    'sd-grid': SdGrid;
  }
  interface HTMLElementEventMap {
    'sd-focus-cell': CustomEvent<Place>;
    'sd-open-day': CustomEvent<{ day: string }>;
    'sd-show-animal': CustomEvent<{ row: string }>;
  }
}
