import { css, type CSSResult } from 'lit';

/** Pages as they come out of the printer: black on white, static tables, headings on every page. */
export const paperStyles: CSSResult = css`
  :host {
    display: block;
    padding: 0 20px 40px;
  }

  .tools {
    position: sticky;
    top: 0;
    z-index: 2;
    display: flex;
    flex-wrap: wrap;
    gap: 10px 14px;
    align-items: end;
    padding: 12px 0;
    border-bottom: 1px solid var(--line);
    background: var(--paper);
  }

  .tools .field {
    width: auto;
  }

  .tools input {
    width: 5.5em;
  }

  .tools .end {
    display: flex;
    gap: 8px;
    margin-inline-start: auto;
  }

  .sheet {
    max-width: 210mm;
    margin: 20px auto;
    padding: 12mm;
    overflow-x: auto;
    background: var(--sheet);
    box-shadow: var(--shadow);
    font-size: 11pt;
    color: var(--ink);
  }

  h1 {
    margin: 0;
    font-size: 16pt;
  }

  h2 {
    margin: 14pt 0 4pt;
    font-size: 12pt;
    break-after: avoid;
  }

  header p {
    margin: 2pt 0 8pt;
  }

  section {
    break-inside: auto;
  }

  .sheet table {
    width: calc(100% - 2px);
    margin: 0 1px 10pt;
    border-collapse: collapse;
  }

  thead {
    display: table-header-group;
  }

  tr {
    break-inside: avoid;
  }

  th,
  td {
    padding: 3pt 5pt;
    border: 0.5pt solid var(--line-strong);
    text-align: start;
    vertical-align: top;
    font-weight: 400;
  }

  thead th {
    background: var(--sunk);
    font-weight: 600;
    print-color-adjust: exact;
  }

  tbody th {
    font-weight: 600;
  }

  .number {
    text-align: end;
  }

  small {
    display: block;
    color: var(--soft);
    font-size: 8.5pt;
    font-weight: 400;
  }

  .write td,
  .write th {
    height: 9mm;
    vertical-align: middle;
  }

  .write tbody small {
    display: inline;
  }

  .blank {
    min-width: 14mm;
  }

  .grid + .grid {
    break-before: page;
  }

  .method th {
    width: 32%;
  }

  .labels {
    display: grid;
    gap: 0;
    height: 265mm;
    break-after: page;
  }

  :host([data-size='letter']) .labels {
    height: 248mm;
  }

  .labels.strip {
    height: auto;
  }

  .labels:last-child {
    break-after: auto;
  }

  .label {
    display: flex;
    flex-direction: column;
    justify-content: center;
    min-height: 16mm;
    padding: 2mm 4mm;
    overflow: hidden;
    border: 0.25pt dashed var(--line-strong);
    line-height: 1.15;
  }

  .label strong {
    font-size: 18pt;
    overflow-wrap: anywhere;
  }

  .label .cup {
    font-size: 12pt;
  }

  @media print {
    :host {
      padding: 0;
    }

    thead th {
      background: #eee;
    }

    .tools {
      display: none;
    }

    .sheet {
      max-width: none;
      margin: 0;
      padding: 0;
      overflow: visible;
      box-shadow: none;
    }
  }
`;
