import { launch } from './support.mjs';
const base='http://127.0.0.1:8051';
const b=await launch(base); const p=await b.newPage({viewport:{width:1280,height:800}});
await p.goto(base+'/staff/sign-in'); await p.fill('input[name=name]','Dr Beck'); await p.fill('input[name=password]','eleven crests'); await p.click('button[type=submit]'); await p.waitForURL('**/class-sets');
await p.goto(base+'/class-sets/1/marking/sheets/C');
await p.keyboard.press('a'); await p.waitForTimeout(1500); await p.keyboard.press('ArrowDown'); await p.waitForTimeout(300); await p.screenshot({path:'/tmp/mk2.png'});
await b.close();
