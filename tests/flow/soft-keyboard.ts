import type { CDPSession, Page } from 'playwright-core';

/**
 * A phone's keyboard, imitated as its browser reports it: no key is usable ("Unidentified", code 229), the text
 * comes by composition and input events alone.
 */
export class SoftKeyboard {
  private constructor(
    private readonly page: Page,
    private readonly wire: CDPSession,
  ) {}

  static async of(page: Page): Promise<SoftKeyboard> {
    return new SoftKeyboard(page, await page.context().newCDPSession(page));
  }

  /** Types a text into what has the focus, one letter after the other. */
  async type(text: string): Promise<void> {
    let sofar = '';
    for (const letter of text) {
      sofar += letter;
      await this.strange('rawKeyDown');
      await this.wire.send('Input.imeSetComposition', {
        text: sofar,
        selectionStart: sofar.length,
        selectionEnd: sofar.length,
      });
      await this.strange('keyUp');
    }
    await this.wire.send('Input.insertText', { text });
  }

  /** The key at the corner, which the field calls Next: the only one that comes as a key. */
  async next(): Promise<void> {
    await this.page.keyboard.press('Enter');
  }

  private async strange(type: 'rawKeyDown' | 'keyUp'): Promise<void> {
    await this.wire.send('Input.dispatchKeyEvent', {
      type,
      key: 'Unidentified',
      code: '',
      windowsVirtualKeyCode: 229,
      nativeVirtualKeyCode: 229,
    });
  }
}
