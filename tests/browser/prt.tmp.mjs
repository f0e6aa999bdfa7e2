import { launch } from './support.mjs';
const base='http://127.0.0.1:8051';
const b=await launch(base); const p=await b.newPage({viewport:{width:680,height:1009}});
await p.goto(base+'/staff/sign-in'); await p.fill('input[name=name]','Dr Beck'); await p.fill('input[name=password]','eleven crests'); await p.click('button[type=submit]'); await p.waitForURL('**/class-sets');
await p.emulateMedia({media:'print'});
for (const [i,path] of ['/class-sets/1/feedback/sheets/E','/class-sets/2/feedback/sheets/B'].entries()) { await p.goto(base+path);
console.log(path, await p.$$eval('article.feedback',a=>a.map(x=>[x.className,Math.round(x.getBoundingClientRect().height), Math.round(x.getBoundingClientRect().top)]))); await p.screenshot({path:`/tmp/pr${i}.png`,fullPage:true}); }
await b.close();
