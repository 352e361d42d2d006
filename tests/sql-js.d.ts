/** The little of sql.js that the tests use; the package brings no types. */
declare module 'sql.js' {
  export type SqlValue = number | string | Uint8Array | null;
  export interface Statement {
    run(values: readonly SqlValue[]): void;
    free(): void;
  }
  export interface Database {
    run(sql: string): Database;
    prepare(sql: string): Statement;
    exec(sql: string): { readonly columns: string[]; readonly values: SqlValue[][] }[];
    close(): void;
  }
  export default function initSqlJs(): Promise<{ readonly Database: new () => Database }>;
}
