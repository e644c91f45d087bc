var e,t,n,r,i,a,o,s,c,l,u,d=Symbol.for(`pv`),f={},p=[],m=/^m(i|n|o|s|text|space)$/,h=Array.isArray,g=p.slice,_=Object.assign;function v(e){e&&e.parentNode&&e.remove()}function y(n,r,i,a,o){var s={type:n,props:r,key:i,ref:a,__k:null,__:null,__b:0,__e:null,__c:null,constructor:d,__v:o||++t,__i:-1,__u:0};return!o&&e.vnode&&e.vnode(s),s}function b(e){return e.children}function x(e,t){this.props=e,this.context=t,this.__g=0}function S(e,t){if(t==null)return e.__&&S(e.__,e.__i+1);for(var n;t<e.__k.length;t++)if((n=e.__k[t])&&n.__e)return n.__e;return typeof e.type!=`function`||e.props.__P?null:S(e)}function C(t){var n,r=t.__v,i=r.__e,a=[],o=[],s=t.__P;s&&((n=_({constructor:d},r)).__v=r.__v+1,e.vnode&&e.vnode(n),N(s,n,r,t.__n,s.namespaceURI,32&r.__u?[i]:null,a,i||S(r),32&r.__u,o),n.__v=r.__v,n.__.__k[n.__i]=n,re(a,n,o),r.__=r.__e=null,n.__e!=i&&w(n))}function w(e){if((e=e.__)&&e.__c&&!e.props.__P)return e.__e=null,e.__k.some(function(t){return t&&(e.__e=t.__e)}),w(e)}function T(t){(8&t.__g||(t.__g|=8,r.push(t),a++))&&i==e.debounceRendering||((i=e.debounceRendering)||queueMicrotask)(E)}function E(){try{for(var e,t=1;r.length;)r.length>t&&r.sort(o),e=r.shift(),t=r.length,8&e.__g&&C(e)}finally{(a=r.length)&&(i||queueMicrotask)(E)}}function D(e,t,n,r,i,a,o,s,c,l,u){var d,m,h,g,_,v,y=r.__k||p,b=t.length;for(c=O(n,t,y,c,b),d=0;d<b;d++)(h=n.__k[d])!=null&&(m=~h.__i&&y[h.__i]||f,h.__i=d,v=N(e,h,m,i,a,o,s,c,l,u),g=h.__e,(m.ref!=h.ref||8&m.__u)&&(m.ref&&ae(m.ref,null,h,m),h.ref&&u.push(h.ref,h.__c||g,h)),_||=g,4&h.__u?(c=k(h,c,e,!m.__v),m.__e&&(m.__e=null)):typeof h.type==`function`&&v!==void 0?c=v:g&&(c=g.nextSibling),h.__u&=-21);return n.__e=_,c}function O(e,t,n,r,i){var a,o,s,c,l,u,f,p,m,g=n.length,_=g,v=0,x=0,C=e.__k=Array(i);for(a=0;a<i;a++)(o=t[a])!=null&&typeof o!=`boolean`&&typeof o!=`function`?(typeof o!=`object`||o.constructor===String?o=C[a]=y(null,o):h(o)?o=C[a]=y(b,{children:o}):o.constructor===d&&o.__b?o=C[a]=y(o.type,o.props,o.key,o.ref,o.__v):C[a]=o,c=a+v,o.__=e,o.__b=e.__b+1,s=null,~(l=o.__i=A(o,n,c,_))&&(_--,(s=n[l])&&(s.__u|=2)),s&&s.__v?(o.__u|=16,l==c-1?v--:l==c+1?v++:l!=c&&(l>c?v--:v++,x=1)):(~l||(i>g?v--:i<g&&v++),typeof o.type!=`function`&&(o.__u|=4))):C[a]=null;if(x){for(u=[],f=[],a=0;a<i;a++)if((o=C[a])&&16&o.__u){for(v=0,p=u.length;v<p;)u[m=v+p>>1]<o.__i?v=m+1:p=m;u[v]=o.__i,f[a]=v+1}for(v=u.length;a--;)f[a]&&(f[a]==v?v--:C[a].__u|=4)}if(_)for(a=0;a<g;a++)!(s=n[a])||2&s.__u||(s.__e==r&&(r=S(s)),oe(s,s));return r}function k(e,t,n,r){var i,a,o,s;if(typeof e.type==`function`){if(e.props.__P)return t;if(i=e.__k)for(a=0;a<i.length;a++)i[a]&&(i[a].__=e,t=k(i[a],t,n,!1));return t}for(t&&!t.parentNode&&(t=S(e))&&!t.parentNode&&(t=null),o=e.__e,s=t;s&&s.nodeType==8;)s=s.nextSibling;for(o!=s&&(!r&&n.moveBefore&&o.parentNode?n.moveBefore(o,t):n.insertBefore(o,t||null)),t=o;(t&&=t.nextSibling)&&t.nodeType==8&&!t.data.startsWith(`$s`););return t}function A(e,t,n,r){var i,a=e.key,o=e.type,s=t[n],c=s&&!(2&s.__u);if(s===null&&a==null||c&&a==s.key&&o==s.type)return n;if(r>+!!c){for(i=n-1;i>=0;i--)if((s=t[i])&&!(2&s.__u)&&a==s.key&&o==s.type)return i;for(i=n+1;i<t.length;i++)if((s=t[i])&&!(2&s.__u)&&a==s.key&&o==s.type)return i}return-1}function j(e,t,n){n??=``,t[0]==`-`?e.setProperty(t,n):e[t]=n}function ee(e,t,n,r,i){var a,o;if(t==`style`){if(typeof n==`string`)e.style.cssText=n;else{if(typeof r==`string`&&(e.style.cssText=r=``),r)for(t in r)n&&t in n||j(e.style,t);if(n)for(t in n)r&&n[t]==r[t]||j(e.style,t,n[t])}}else if(t[0]==`o`&&t[1]==`n`)typeof n!=`function`&&(n=null),typeof r!=`function`&&(r=null),(e.__e||={})[t]=n,n&&r||(o=u[t]||(u[t]=M(t)),(e.__a||={})[t]=l,a=t!=(t=t.replace(c,`$1`)),(t=t.slice(2))[0]<`a`&&(t=t.toLowerCase()),n?e.addEventListener(t,o,a):e.removeEventListener(t,o,a));else{if(i==`http://www.w3.org/2000/svg`)t=t.replace(/xlink(H|:h)/,`h`).replace(/sName$/,`s`);else if(t!=`width`&&t!=`height`&&t!=`href`&&t!=`list`&&t!=`form`&&t!=`tabIndex`&&t!=`download`&&t!=`rowSpan`&&t!=`colSpan`&&t!=`role`&&t!=`popover`&&t in e)try{e[t]=n??``;return}catch{}if(typeof n==`function`)return;n==null||!1===n&&t[4]!=`-`?e.removeAttribute(t):e.setAttribute(t,t==`popover`&&n==1?``:n)}}function M(t){return function(n){var r=this.__e;if(r){if(r=r[t],n[s]==null)n[s]=l++;else if(n[s]<this.__a[t])return;return r(e.event?e.event(n):n)}}}function N(t,n,r,i,a,o,s,c,l,u){var f,m,g,y,C,w,T,E,O,k,A,j,ee,M,N,re,ae,ce,le=n.type;if(n.constructor!==d)return null;128&r.__u&&(l=32&r.__u,f=r.__c.__z)&&(n.__u|=l,m=o=[],f.nodeType==8?c=te(f,o):o.push(f),c=o[0]||c),(f=e.__b)&&f(n);n:if(typeof le==`function`){g=s.length;try{if(E=n.props,O=(f=le.prototype)&&f.render,k=(f=le.contextType)&&i[f.__c],A=f?k?k.props.value:f.__:i,(y=r.__c)?(n.__c=y,2&y.__g&&(y.__g|=1)):(O?n.__c=y=new le(E,A):(n.__c=y=new x(E,A),y.constructor=le,y.render=se),k&&k.sub(y),y.state||(y.state={}),y.__n=i,y.__g|=8,y.__h=[],y.__k=[]),O&&(y.__s||(y.__s=y.state),le.getDerivedStateFromProps&&(y.__s==y.state&&(y.__s=_({},y.__s)),_(y.__s,le.getDerivedStateFromProps(E,y.__s)))),C=y.props,w=y.state,y.__v=n,r.__c){if(E!==C&&O&&!le.getDerivedStateFromProps&&y.componentWillReceiveProps&&y.componentWillReceiveProps(E,A),n.__v==r.__v&&!(8&y.__g)||!(4&y.__g)&&y.shouldComponentUpdate&&!1===y.shouldComponentUpdate(E,y.__s,A)){n.__v!=r.__v&&(y.props=E,y.state=y.__s,y.__g&=-9),n.__e=r.__e,n.__k=r.__k,n.__k.some(function(e){e&&(e.__=n)}),p.push.apply(y.__h,y.__k),y.__k=[],y.__h.length&&s.push(y),c=S(r);break n}y.componentWillUpdate&&y.componentWillUpdate(E,y.__s,A),O&&y.componentDidUpdate&&y.__h.push(function(){y.componentDidUpdate(C,w,T)})}else O&&!le.getDerivedStateFromProps&&y.componentWillMount&&y.componentWillMount(),O&&y.componentDidMount&&y.__h.push(y.componentDidMount);y.context=A,y.props=E,y.__P=t,y.__g&=-5,j=e.__r,ee=O?25:0;do y.__g&=-9,j&&j(n),f=y.render(y.props,y.state=y.__s,y.context);while(8&y.__g&&++ee<25);O&&(p.push.apply(y.__h,y.__k),y.__k=[]),y.state=y.__s,y.getChildContext&&(i=_({},i,y.getChildContext())),O&&r.__c&&y.getSnapshotBeforeUpdate&&(T=y.getSnapshotBeforeUpdate(C,w)),M=f&&f.type===b&&f.key==null?f.props.children:f,E.__P&&(f=c,a=(t=E.__P).namespaceURI,l=o=null,r.props&&r.props.__P!=t&&(r.__k.some(function(e){e&&oe(e,e)}),r.__k=null),c=r.__k?S(r,0):null),c=D(t,h(M)?M:[M],n,r,i,a,o,s,c,l,u),E.__P&&(n.__e=null,c=f),n.__u&=-161,m&&m.some(v),y.__h.length&&s.push(y),1&y.__g&&(y.__g&=-4)}catch(t){if(s.length=g,n.__v=null,l||o){if(t&&t.then){if(n.__u|=128|l,o){for(~(ae=o.indexOf(c||void 0))||(ae=o.length);(ce=o[ae-1])&&ce.nodeType==8;)ae--;for(;ae<o.length;ae++)if(ce=o[ae]){if(o[ae]=null,N){if(ce==re)break}else{if(ce.nodeType!=8)break;ce.data.startsWith(`$s`)&&(re=te(N=ce))}}}if(!N){for(;c&&c.nodeType==8&&c.nextSibling;)c=c.nextSibling;N=c}(f=te(N=n.__c.__z||(n.__c.__z=N)))?(n.__e=N,c=f):n.__e=c,c&&=c.nextSibling}else o&&o.some(v)}else n.__e=r.__e;n.__k||=r.__k||[],t&&t.then||ne(n),e.__e(t,n,r)}}else c=n.__e=ie(r.__e,n,r,i,a,o,s,l,u,t);return(f=e.diffed)&&f(n),c}function te(e,t){if(e&&e.nodeType==8&&e.data.startsWith(`$s`))for(var n=1;e=e.nextSibling;){if(e.nodeType==8){if(e.data.startsWith(`$s`))n++;else if(e.data.startsWith(`/$s`)&&!--n)return e}t&&t.push(e)}}function ne(e){e&&(e.__c&&(e.__c.__g|=4),e.__k&&e.__k.some(ne))}function re(t,n,r){for(var i=0;i<r.length;)ae(r[i++],r[i++],r[i++]);e.__c&&e.__c(n,t),t.some(function(n){try{t=n.__h,n.__h=[],t.some(function(e){e.call(n)})}catch(t){e.__e(t,n.__v)}})}function ie(t,n,r,i,a,o,s,c,l,u){var d,p,_,y,b,x,C,w,T=r.props||f,E=n.props,O=n.type;if(O==`svg`?a=`http://www.w3.org/2000/svg`:O==`math`?a=`http://www.w3.org/1998/Math/MathML`:a||=`http://www.w3.org/1999/xhtml`,o){for(d=0;d<o.length;d++)if((b=o[d])&&(O?b.localName==O:b.nodeType==3)){t=b,o[d]=null;break}}if(!t){if(w=u.ownerDocument||document,!O)return w.createTextNode(E);t=w.createElementNS(a,O,E.is?E:u),c&&=(e.__m&&e.__m(n,o),!1),o=null}if(O){if(u=O==`template`&&t.content||t,o=O==`textarea`&&E.defaultValue!=null?null:o&&g.call(u.childNodes),!c&&o)for(T={},d=0;d<t.attributes.length;d++)T[(b=t.attributes[d]).name]=b.value;for(d in T)b=T[d],d==`dangerouslySetInnerHTML`?_=b:d==`children`||d in E||d==`value`&&`defaultValue`in E||d==`checked`&&`defaultChecked`in E||ee(t,d,null,b,a);for(d in E)b=E[d],d==`children`?y=b:d==`dangerouslySetInnerHTML`?p=b:d==`value`?x=b:d==`checked`?C=b:c&&typeof b!=`function`||T[d]===b||ee(t,d,b,T[d],a);p?(c||_&&(p.__html==_.__html||p.__html==t.innerHTML)||(t.innerHTML=p.__html),n.__k=[]):(_&&(t.textContent=``),(O==`foreignObject`||a==`http://www.w3.org/1998/Math/MathML`&&m.test(O))&&(a=`http://www.w3.org/1999/xhtml`),D(u,h(y)?y:[y],n,r,i,a,o,s,o?o[0]:r.__k&&S(r,0),c,l),o&&o.some(v)),c&&O!=`textarea`||(d=`value`,O==`progress`&&x==null?t.removeAttribute(d):x==null||x===t[d]&&(O!=`progress`||x)||ee(t,d,x,T[d],a),d=`checked`,C!=null&&C!=t[d]&&ee(t,d,C,T[d],a))}else T===E||c&&t.data==E||(t.data=E);return t}function ae(t,n,r,i){try{typeof t==`function`?n?n.__x=t(n)||1:(i&&=i.__c||i.__e)&&(n=i.__x)&&(i.__x=null,typeof n==`function`?n():t(null)):t.current=n}catch(t){e.__e(t,r)}}function oe(t,n,r){var i,a,o,s;if(e.unmount&&e.unmount(t),!(i=t.ref)||i.current&&i.current!=t.__e||ae(i,null,n,t),i=t.__c){if(i.componentWillUnmount)try{i.componentWillUnmount()}catch(t){e.__e(t,n)}i.__P=i.__n=null}if(i=t.__k)for(s=0;s<i.length;s++)i[s]&&oe(i[s],n,typeof t.type!=`function`||r&&!t.props.__P);!r&&(i=t.__c)&&(i=i.__z)&&(a=te(i,o=[]))&&(i==t.__e&&o.some(v),v(a),v(i)),r||v(t.__e),t.__e=t.__c=t.__=null}function se(e,t,n){return this.constructor(e,n)}function ce(t,n){var r,i,a,o;e.__&&e.__(t,n),n.nodeType==9&&(n=n.documentElement),i=(r=t&&32&t.__u)?null:n.__k,n.__k=y(b,{children:[t]}),a=[],o=[],N(n,n.__k,i||f,f,n.namespaceURI,i?null:n.firstChild?g.call(n.childNodes):null,a,i?i.__e:n.firstChild,r,o),re(a,n.__k,o),n.__k.props.children=null}e={__e:function(e,t,n,r){for(var i,o,s;t=t.__;)if((i=t.__c)&&!(1&i.__g)){i.__g|=4;try{if((s=(o=i.constructor)&&o.getDerivedStateFromError)&&i.setState(o.getDerivedStateFromError(e)),i.componentDidCatch&&(i.componentDidCatch(e,r||{}),s=1),s&&8&i.__g)return void(i.__g|=2)}catch(t){e=t}}throw a=0,e}},t=0,n=function(e){return e!=null&&e.constructor===d},x.prototype.setState=function(e,t){var n=this.__s;n&&n!=this.state||(n=this.__s=_({},this.state)),typeof e==`function`&&(e=e(_({},n),this.props)),e&&(_(n,e),this.__v&&(t&&this.__k.push(t),T(this)))},x.prototype.forceUpdate=function(e){this.__v&&(this.__g|=4,e&&this.__h.push(e),T(this))},x.prototype.render=b,r=[],a=0,o=function(e,t){return e.__v.__b-t.__v.__b},s=Symbol(),c=/(PointerCapture)$|Capture$/i,l=0,u={};var le,ue,de,fe,pe=Object.is,me=0,he=[],ge=[],P=e,_e=P.__b,ve=P.__r,ye=P.diffed,be=P.__c,xe=P.unmount,Se=P.__;function Ce(e,t){P.__h&&P.__h(ue,e,me||t),me=0;var n=ue.__H||(ue.__H={__:[],__h:[]});return e>=n.__.length&&n.__.push({}),n.__[e]}function F(e,t){var n=Ce(le++,3);!P.__s&&ke(n.__H,t)&&(n.__P=!0,n.__=e,n.u=t,ue.__H.__h.push(n))}function we(e){return me=5,Te(function(){return{current:e}},[])}function Te(e,t){var n=Ce(le++,7);return ke(n.__H,t)&&(n.__=e(),n.__H=t),n.__}function Ee(){var e;do{for(;e=ge.shift();)try{R(e)}catch(t){P.__e(t,{__:(e=e.__P)&&e.__v})}for(;e=he.shift();){var t=e.__H;if(e.__P&&t)try{t.__h.some(R),t.__h.some(Oe),t.__h=[]}catch(n){t.__h=[],P.__e(n,e.__v)}}}while(ge.length)}P.__b=function(e){ue=null,_e&&_e(e)},P.__=function(e,t){e&&t.__k&&t.__k.__m&&(e.__m=t.__k.__m),Se&&Se(e,t)},P.__r=function(e){ve&&ve(e),le=0;var t=(ue=e.__c).__H;t&&(de==ue?ue.__h=[]:(t.__h.some(R),t.__h.some(Oe),le=0),t.__h=[],t.__.some(function(e){e.__N&&(e.__=e.__N),e.u=e.__N=void 0})),de=ue},P.diffed=function(e){ye&&ye(e);var t=e.__c;t&&t.__H&&(t.__H.__h.length&&L(he.push(t)),t.__H.__.some(function(e){e.u&&(e.__H=e.u)})),de=ue=null},P.__c=function(e,t){t.some(function(e){try{e.__h.some(R),e.__h=e.__h.filter(function(e){return!e.__||Oe(e)})}catch(t){e.__h=[function(){throw t}]}}),be&&be(e,t)},P.unmount=function(e){xe&&xe(e);var t,n,r=e.__c;r&&r.__H&&(r.__H.__.some(function(r){try{if(r.__P&&r.__c){if(n===void 0){for(n=e.__;n&&(!n.__c||!n.__c.__P);)n=n.__;n&&=n.__c}r.__P=n,L(ge.push(r))}else R(r)}catch(e){t=e}}),r.__H=void 0,t&&P.__e(t,r.__v))};var I=typeof requestAnimationFrame==`function`;function De(e){var t,n=function(){clearTimeout(r),I&&cancelAnimationFrame(t),setTimeout(e)},r=setTimeout(n,35);I&&(t=requestAnimationFrame(n))}function L(e){e!=1&&fe==P.requestAnimationFrame||((fe=P.requestAnimationFrame)||De)(Ee)}function R(e){var t=ue,n=e.__c;typeof n==`function`&&(e.__c=void 0,n()),ue=t}function Oe(e){var t=ue;e.__c=e.__(),ue=t}function ke(e,t){return!e||e.length!=t.length||t.some(function(t,n){return!pe(t,e[n])})}async function Ae(e){let t=await fetch(`/api/cases/${encodeURIComponent(e)}/view`);if(t.status===404)return null;if(!t.ok)throw Error(`The view of ${e} cannot be read.`);return{view:await t.json(),stamp:t.headers.get(`X-Claspwright-Stamp`)??``}}async function je(e){let t=await fetch(e);if(!t.ok)throw Error(`${e} cannot be read.`);return await t.json()}function Me(e,t,n){let r=t.parts.map(e=>({...e,from:n})),i={model:`lifting`,framework:`stress`},a=e.parts.filter(e=>!r.some(t=>t.key===i[e.key])).map(e=>({...e,shown:e.key===`model`,with_values:!1,values_bytes:e.with_values}));return{...e,parts:[...r,...a],labels:t.labels,tracks:t.lines.map(e=>({...e,closed:!1}))}}function Ne(e,t){let n=new Float32Array(e,0,t.vertices*3),r=n.byteLength,i=new Uint32Array(e,r,t.faces*3);r+=i.byteLength;let a=t.with_values?new Float32Array(e,r,t.vertices):null;return r+=t.with_values||t.values_bytes?4*t.vertices:0,{positions:n,index:i,values:a,teeth:t.with_teeth?new Uint8Array(e,r,t.faces):null}}function Pe(e,t){return[e.origin_px[0]+e.x_px_per_mm[0]*t[0]+e.y_px_per_mm[0]*t[1],e.origin_px[1]+e.x_px_per_mm[1]*t[0]+e.y_px_per_mm[1]*t[1]]}function Fe(e,t,n=!1){let r=t.map(t=>Pe(e,t).map(e=>e.toFixed(1)).join(` `));return r.length?`M${r.join(`L`)}${n?`Z`:``}`:``}function Ie(e,t){let n=e.length-1;return Array.from({length:t},(r,i)=>e[Math.round((i+.5)/t*n)])}var Le=Symbol.for(`preact-signals`);function Re(){if(We>1)We--;else{var e,t=!1;for((function(){var e=Je;for(Je=void 0;e!==void 0;){var t=e.S;if(t.v===e.v)for(var n=t.t;n!==void 0;n=n.x)n.i===e.i&&(n.i=t.i);e=e.o}})();Ue!==void 0;){var n=Ue;for(Ue=void 0,Ge++;n!==void 0;){var r=n.u;if(n.u=void 0,n.f&=-3,!(8&n.f)&&$e(n))try{n.c()}catch(n){t||=(e=n,!0)}n=r}}if(Ge=0,We--,t)throw e}}function ze(e){if(We>0)return e();qe=++Ke,We++;try{return e()}finally{Re()}}var Be,Ve=void 0;function He(e){var t=Ve,n=Be;Ve=void 0,Be=void 0;try{return e()}finally{Ve=t,Be=n}}var Ue=void 0,We=0,Ge=0,Ke=0,qe=0,Je=void 0,Ye=0;function Xe(e){if(Ve!==void 0){var t=e.n;if(t===void 0||t.t!==Ve)return t={i:0,S:e,p:Ve.s,n:void 0,t:Ve,e:void 0,x:void 0,r:t},Ve.s!==void 0&&(Ve.s.n=t),Ve.s=t,e.n=t,32&Ve.f&&e.S(t),t;if(t.i===-1)return t.i=0,t.n!==void 0&&(t.n.p=t.p,t.p!==void 0&&(t.p.n=t.n),t.p=Ve.s,t.n=void 0,Ve.s.n=t,Ve.s=t),t}}function Ze(e,t){this.v=e,this.i=0,this.n=void 0,this.t=void 0,this.l=0,this.W=t?.watched,this.Z=t?.unwatched,this.name=t?.name}Ze.prototype.brand=Le,Ze.prototype.h=function(){return!0},Ze.prototype.S=function(e){var t=this,n=this.t;n!==e&&e.e===void 0&&(e.x=n,this.t=e,n===void 0?He(function(){var e;(e=t.W)==null||e.call(t)}):n.e=e)},Ze.prototype.U=function(e){var t=this;if(this.t!==void 0){var n=e.e,r=e.x;n!==void 0&&(n.x=r,e.e=void 0),r!==void 0&&(r.e=n,e.x=void 0),e===this.t&&(this.t=r,r===void 0&&He(function(){var e;(e=t.Z)==null||e.call(t)}))}},Ze.prototype.subscribe=function(e){var t=this;return ct(function(){var n=t.value;He(function(){return e(n)})},{name:`sub`})},Ze.prototype.valueOf=function(){return this.value},Ze.prototype.toString=function(){return this.value+``},Ze.prototype.toJSON=function(){return this.value},Ze.prototype.peek=function(){var e=this;return He(function(){return e.value})},Object.defineProperty(Ze.prototype,"value",{get:function(){var e=Xe(this);return e!==void 0&&(e.i=this.i),this.v},set:function(e){if(e!==this.v){if(Ge>100)throw Error(`Cycle detected`);(function(e){We!==0&&Ge===0&&e.l!==qe&&(e.l=qe,Je={S:e,v:e.v,i:e.i,o:Je})})(this),this.v=e,this.i++,Ye++,We++;try{for(var t=this.t;t!==void 0;t=t.x)t.t.N()}finally{Re()}}}});function Qe(e,t){return new Ze(e,t)}function $e(e){for(var t=e.s;t!==void 0;t=t.n)if(t.S.i!==t.i||!t.S.h()||t.S.i!==t.i)return!0;return!1}function et(e){for(var t=e.s;t!==void 0;t=t.n){var n=t.S.n;if(n!==void 0&&(t.r=n),t.S.n=t,t.i=-1,t.n===void 0){e.s=t;break}}}function tt(e){for(var t=e.s,n=void 0;t!==void 0;){var r=t.p;t.i===-1?(t.S.U(t),r!==void 0&&(r.n=t.n),t.n!==void 0&&(t.n.p=r)):n=t,t.S.n=t.r,t.r!==void 0&&(t.r=void 0),t=r}e.s=n}function nt(e,t){Ze.call(this,void 0,t),this.x=e,this.s=void 0,this.g=Ye-1,this.f=4}nt.prototype=new Ze,nt.prototype.h=function(){if(this.f&=-3,1&this.f)return!1;if((36&this.f)==32||(this.f&=-5,this.g===Ye))return!0;if(this.g=Ye,this.f|=1,this.i>0&&!$e(this))return this.f&=-2,!0;var e=Ve;try{et(this),Ve=this;var t=this.x();(16&this.f||this.v!==t||this.i===0)&&(this.v=t,this.f&=-17,this.i++)}catch(e){this.v=e,this.f|=16,this.i++}return Ve=e,tt(this),this.f&=-2,!0},nt.prototype.S=function(e){if(this.t===void 0){this.f|=36;for(var t=this.s;t!==void 0;t=t.n)t.S.S(t)}Ze.prototype.S.call(this,e)},nt.prototype.U=function(e){if(this.t!==void 0&&(Ze.prototype.U.call(this,e),this.t===void 0)){this.f&=-33;for(var t=this.s;t!==void 0;t=t.n)t.S.U(t)}},nt.prototype.N=function(){if(!(2&this.f)){this.f|=6;for(var e=this.t;e!==void 0;e=e.x)e.t.N()}},Object.defineProperty(nt.prototype,"value",{get:function(){if(1&this.f)throw Error(`Cycle detected`);var e=Xe(this);if(this.h(),e!==void 0&&(e.i=this.i),16&this.f)throw this.v;return this.v}});function rt(e,t){return new nt(e,t)}function it(e){var t=e.j;if(e.j=void 0,typeof t==`function`){We++;var n=Ve;Ve=void 0;try{t()}catch(t){throw e.f&=-2,e.f|=8,at(e),t}finally{Ve=n,Re()}}}function at(e){for(var t=e.s;t!==void 0;t=t.n)t.S.U(t);e.x=void 0,e.s=void 0,it(e)}function ot(e){if(Ve!==this)throw Error(`Out-of-order effect`);tt(this),Ve=e,this.f&=-2;try{8&this.f&&at(this)}finally{Re()}}function st(e,t){this.x=e,this.j=void 0,this.s=void 0,this.u=void 0,this.f=32,this.name=t?.name,Be&&Be.push(this)}st.prototype.c=function(){var e=this.S();try{if(8&this.f||this.x===void 0)return;var t=this.x();typeof t==`function`&&(this.j=t)}finally{e()}},st.prototype.S=function(){if(1&this.f)throw Error(`Cycle detected`);this.f|=1,this.f&=-9,it(this),et(this),We++;var e=Ve;return Ve=this,ot.bind(this,e)},st.prototype.N=function(){2&this.f||(this.f|=2,this.u=Ue,Ue=this)},st.prototype.d=function(){this.f|=8,1&this.f||at(this)},st.prototype.dispose=function(){this.d()};function ct(e,t){var n=new st(e,t);try{n.c()}catch(e){throw n.d(),e}var r=n.d.bind(n);return r[Symbol.dispose]=r,r}var lt,ut,dt=typeof window<`u`&&!!window.__PREACT_SIGNALS_DEVTOOLS__,ft=[];ct(function(){lt=this.N})();function pt(t,n){e[t]=n.bind(null,e[t]||function(){})}function mt(e){if(ut){var t=ut;ut=void 0,t()}ut=e&&e.S()}function ht(e){var t=this,r=e.data,i=z(r);i.name=`ReactiveDom`,i.value=r;var a=Te(function(){for(var e=t,r=t.__v;r=r.__;)if(r.__c){r.__c.__$f|=4;break}var a=rt(function(){var e=i.value.value;return e===0?0:!0===e?``:e||``}),o=rt(function(){return!Array.isArray(a.value)&&!n(a.value)}),s=ct(function(){if(this.N=yt,o.value){var t=a.value;e.__v&&e.__v.__e&&e.__v.__e.nodeType===3&&(e.__v.__e.data=t)}}),c=t.__$u.d;return t.__$u.d=function(){s(),c.call(this)},[o,a]},[]),o=a[0],s=a[1];return o.value?s.peek():s.value}ht.displayName=`ReactiveTextNode`,Object.defineProperties(Ze.prototype,{constructor:{configurable:!0,value:void 0},type:{configurable:!0,value:ht},props:{configurable:!0,get:function(){var e=this;return{data:{get value(){return e.value}}}}},__b:{configurable:!0,value:1}}),pt(`__b`,function(e,t){if(typeof t.type==`string`){var n,r=t.props;for(var i in r)if(i!==`children`){var a=r[i];a instanceof Ze&&(n||(t.__np=n={}),n[i]=a,r[i]=a.peek())}}e(t)}),pt(`__r`,function(e,t){if(e(t),t.type!==b){mt();var n,r=t.__c;r&&(r.__$f&=-2,(n=r.__$u)===void 0&&(r.__$u=n=function(e,t){var n;return ct(function(){n=this},{name:t}),n.c=e,n}(function(){var e;dt&&((e=n.y)==null||e.call(n)),r.__$f|=1,r.setState({})},typeof t.type==`function`?t.type.displayName||t.type.name:``))),mt(n)}}),pt(`__e`,function(e,t,n,r){mt(),e(t,n,r)}),pt(`diffed`,function(e,t){mt();var n;if(typeof t.type==`string`&&(n=t.__e)){var r=t.__np,i=t.props,a=n.U;if(a)for(var o in a){var s=a[o];s===void 0||r&&o in r||(s.d(),a[o]=void 0)}if(r)for(var c in a||(a={},n.U=a),r){var l=a[c],u=r[c];l===void 0?(l=gt(n,c,u,i),a[c]=l):l.o(u,i)}}e(t)});function gt(e,t,n,r){var i=t in e&&e.ownerSVGElement===void 0,a=Qe(n);return{o:function(e,t){a.value=e,r=t},d:ct(function(){this.N=yt;var n=a.value.value;r[t]!==n&&(r[t]=n,i?e[t]=n:n!=null&&(!1!==n||t[4]===`-`)?e.setAttribute(t,n):e.removeAttribute(t))})}}pt(`unmount`,function(e,t){if(typeof t.type==`string`){var n=t.__e;if(n){var r=n.U;if(r)for(var i in n.U=void 0,r){var a=r[i];a&&a.d()}}var o=t.__np;if(o){var s=t.props;for(var c in o)s[c]=o[c]}t.__np=void 0}else{var l=t.__c;if(l){var u=l.__$u;u&&(l.__$u=void 0,u.d())}}e(t)}),pt(`__h`,function(e,t,n,r){r<3&&(t.__$f|=2),e(t,n,r)}),x.prototype.shouldComponentUpdate=function(e,t){if(this.__R)return!0;var n=this.__$u,r=n&&n.s!==void 0;for(var i in t)return!0;if(this.__f||typeof this.u==`boolean`&&!0===this.u){var a=2&this.__$f;if(!(r||a||4&this.__$f)||1&this.__$f)return!0}else if(!(r||4&this.__$f)||3&this.__$f)return!0;for(var o in e)if(o!==`__source`&&e[o]!==this.props[o])return!0;for(var s in this.props)if(!(s in e))return!0;return!1};function z(e,t){return Te(function(){return Qe(e,t)},[])}var _t=function(e){queueMicrotask(function(){queueMicrotask(e)})};function vt(){ze(function(){for(var e;e=ft.shift();)lt.call(e)})}function yt(){ft.push(this)===1&&(e.requestAnimationFrame||_t)(vt)}var bt=/\{[^{}]+\}/g,xt=()=>typeof process==`object`&&Number.parseInt(process?.versions?.node?.substring(0,2))>=18&&process.versions.undici;function St(){return Math.random().toString(36).slice(2,11)}function Ct(e){let{baseUrl:t=``,Request:n=globalThis.Request,fetch:r=globalThis.fetch,querySerializer:i,bodySerializer:a,pathSerializer:o,headers:s,requestInitExt:c=void 0,...l}={...e};c=xt()?c:void 0,t=Mt(t);let u=[];async function d(e,d){let{baseUrl:f,fetch:p=r,Request:m=n,headers:h,params:g={},parseAs:_=`json`,querySerializer:v,bodySerializer:y=a??kt,pathSerializer:b,body:x,middleware:S=[],...C}=d||{},w=t;f&&(w=Mt(f)??t);let T=typeof i==`function`?i:Dt(i);v&&(T=typeof v==`function`?v:Dt({...typeof i==`object`?i:{},...v}));let E=b||o||Ot,D=x===void 0?void 0:y(x,jt(s,h,g.header)),O=jt(D===void 0||D instanceof FormData?{}:{"Content-Type":`application/json`},s,h,g.header),k=[...u,...S],A={redirect:`follow`,...l,...C,body:D,headers:O},j,ee,M=new m(At(e,{baseUrl:w,params:g,querySerializer:T,pathSerializer:E}),A),N;for(let e in C)e in M||(M[e]=C[e]);if(k.length){j=St(),ee=Object.freeze({baseUrl:w,fetch:p,parseAs:_,querySerializer:T,bodySerializer:y,pathSerializer:E});for(let t of k)if(t&&typeof t==`object`&&typeof t.onRequest==`function`){let n=await t.onRequest({request:M,schemaPath:e,params:g,options:ee,id:j});if(n){if(n instanceof m)M=n;else if(n instanceof Response){N=n;break}else throw Error(`onRequest: must return new Request() or Response() when modifying the request`)}}}if(!N){try{N=await p(M,c)}catch(t){let n=t;if(k.length)for(let t=k.length-1;t>=0;t--){let r=k[t];if(r&&typeof r==`object`&&typeof r.onError==`function`){let t=await r.onError({request:M,error:n,schemaPath:e,params:g,options:ee,id:j});if(t){if(t instanceof Response){n=void 0,N=t;break}if(t instanceof Error){n=t;continue}throw Error(`onError: must return new Response() or instance of Error`)}}}if(n)throw n}if(k.length)for(let t=k.length-1;t>=0;t--){let n=k[t];if(n&&typeof n==`object`&&typeof n.onResponse==`function`){let t=await n.onResponse({request:M,response:N,schemaPath:e,params:g,options:ee,id:j});if(t){if(!(t instanceof Response))throw Error(`onResponse: must return new Response() when modifying the response`);N=t}}}}let te=N.headers.get(`Content-Length`);if(N.status===204||M.method===`HEAD`||te===`0`&&!N.headers.get(`Transfer-Encoding`)?.includes(`chunked`))return N.ok?{data:void 0,response:N}:{error:void 0,response:N};if(N.ok)return{data:await(async()=>{if(_===`stream`)return N.body;if(_===`json`&&!te){let e=await N.text();return e?JSON.parse(e):void 0}return await N[_]()})(),response:N};let ne=await N.text();try{ne=JSON.parse(ne)}catch{}return{error:ne,response:N}}return{request(e,t,n){return d(t,{...n,method:e.toUpperCase()})},GET(e,t){return d(e,{...t,method:`GET`})},PUT(e,t){return d(e,{...t,method:`PUT`})},POST(e,t){return d(e,{...t,method:`POST`})},DELETE(e,t){return d(e,{...t,method:`DELETE`})},OPTIONS(e,t){return d(e,{...t,method:`OPTIONS`})},HEAD(e,t){return d(e,{...t,method:`HEAD`})},PATCH(e,t){return d(e,{...t,method:`PATCH`})},TRACE(e,t){return d(e,{...t,method:`TRACE`})},use(...e){for(let t of e)if(t){if(typeof t!=`object`||!(`onRequest`in t||`onResponse`in t||`onError`in t))throw Error("Middleware must be an object with one of `onRequest()`, `onResponse() or `onError()`");u.push(t)}},eject(...e){for(let t of e){let e=u.indexOf(t);e!==-1&&u.splice(e,1)}}}}function wt(e,t,n){if(t==null)return``;if(typeof t==`object`)throw Error("Deeply-nested arrays/objects aren’t supported. Provide your own `querySerializer()` to handle these.");return`${e}=${n?.allowReserved===!0?t:encodeURIComponent(t)}`}function Tt(e,t,n){if(!t||typeof t!=`object`)return``;let r=[],i={simple:`,`,label:`.`,matrix:`;`}[n.style]||`&`;if(n.style!==`deepObject`&&n.explode===!1){for(let e in t)r.push(e,n.allowReserved===!0?t[e]:encodeURIComponent(t[e]));let i=r.join(`,`);switch(n.style){case`form`:return`${e}=${i}`;case`label`:return`.${i}`;case`matrix`:return`;${e}=${i}`;default:return i}}for(let i in t){let a=n.style===`deepObject`?`${e}[${i}]`:i;r.push(wt(a,t[i],n))}let a=r.join(i);return n.style===`label`||n.style===`matrix`?`${i}${a}`:a}function Et(e,t,n){if(!Array.isArray(t))return``;if(n.explode===!1){let r={form:`,`,spaceDelimited:`%20`,pipeDelimited:`|`}[n.style]||`,`,i=(n.allowReserved===!0?t:t.map(e=>encodeURIComponent(e))).join(r);switch(n.style){case`simple`:return i;case`label`:return`.${i}`;case`matrix`:return`;${e}=${i}`;default:return`${e}=${i}`}}let r={simple:`,`,label:`.`,matrix:`;`}[n.style]||`&`,i=[];for(let r of t)n.style===`simple`||n.style===`label`?i.push(n.allowReserved===!0?r:encodeURIComponent(r)):i.push(wt(e,r,n));return n.style===`label`||n.style===`matrix`?`${r}${i.join(r)}`:i.join(r)}function Dt(e){return function(t){let n=[];if(t&&typeof t==`object`)for(let r in t){let i=t[r];if(i!=null){if(Array.isArray(i)){if(i.length===0)continue;n.push(Et(r,i,{style:`form`,explode:!0,...e?.array,allowReserved:e?.allowReserved||!1}))}else typeof i==`object`?n.push(Tt(r,i,{style:`deepObject`,explode:!0,...e?.object,allowReserved:e?.allowReserved||!1})):n.push(wt(r,i,e))}}return n.join(`&`)}}function Ot(e,t){let n=e;for(let r of e.match(bt)??[]){let e=r.substring(1,r.length-1),i=!1,a=`simple`;if(e.endsWith(`*`)&&(i=!0,e=e.substring(0,e.length-1)),e.startsWith(`.`)?(a=`label`,e=e.substring(1)):e.startsWith(`;`)&&(a=`matrix`,e=e.substring(1)),!t||t[e]===void 0||t[e]===null)continue;let o=t[e];n=Array.isArray(o)?n.replace(r,Et(e,o,{style:a,explode:i})):typeof o==`object`?n.replace(r,Tt(e,o,{style:a,explode:i})):a===`matrix`?n.replace(r,`;${wt(e,o)}`):n.replace(r,a===`label`?`.${encodeURIComponent(o)}`:encodeURIComponent(o))}return n}function kt(e,t){return e instanceof FormData?e:t&&(t.get instanceof Function?t.get(`Content-Type`)??t.get(`content-type`):t[`Content-Type`]??t[`content-type`])===`application/x-www-form-urlencoded`?new URLSearchParams(e).toString():JSON.stringify(e)}function At(e,t){let n=`${t.baseUrl}${e}`;t.params?.path&&(n=t.pathSerializer(n,t.params.path));let r=t.querySerializer(t.params.query??{});return r.startsWith(`?`)&&(r=r.substring(1)),r&&(n+=`?${r}`),n}function jt(...e){let t=new Headers;for(let n of e){if(!n||typeof n!=`object`)continue;let e=n instanceof Headers?n.entries():Object.entries(n);for(let[n,r]of e)if(r===null)t.delete(n);else if(Array.isArray(r))for(let e of r)t.append(n,e);else r!==void 0&&t.set(n,r)}return t}function Mt(e){return e.endsWith(`/`)?e.substring(0,e.length-1):e}var Nt=``,Pt=()=>{};function Ft(e,t){Nt=e,Pt=t}async function It(e){try{Nt&&e.method!==`GET`&&e.headers.set(`X-Claspwright-Session`,Nt);let t=await fetch(e);return t.status===401&&Nt&&Pt(),t}catch{return Response.json({what:`The bench does not answer`,place:``,remedy:``},{status:503})}}var B=Ct({baseUrl:`/`,fetch:It});function Lt(e){let t=e;return!t||typeof t.what!=`string`?`The bench does not answer.`:[t.place?`${t.place}: ${t.what}`:t.what,t.remedy].filter(Boolean).join(`. `)}var Rt={clinic:`Clinic`,acrylic:`Acrylic`,quality:`Quality`,signFirst:`Entries are signed:`,entered:`Entered, number`,approval:`Approval`,approvalHow:`The prescriber approves a revision by its hash: exactly these files, and no later ones.`,offer:`Offer this design for approval`,staleOffer:`The sheet has changed since the design was worked out; work it out before it is offered.`,revision:`revision`,hash:`hash`,answers:`answers`,noRevision:`No design was offered yet.`,approved:`approved`,refused:`not approved`,open:`no answer yet`,pasteAnswer:`Text from the dentist's page`,pasteHow:`The dentist's page review.html writes this text; the hashes in it say which design was seen.`,takeAnswer:`Take the answer`,byHand:`An answer given otherwise`,seenHash:`hash that was seen, its first 12 signs or more`,remark:`remark`,altered:`Altered cast`,alteredUnsaid:`Free ends: say whether an altered cast is needed.`,needed:`needed`,notNeeded:`not needed`,doneOn:`done on`,tryIn:`Try-in`,tryInHow:`Where metal was taken away, and how much: the only truth about the fit. It goes into the charts of quality.`,noParts:`No framework is in the register yet: enter its build on the page Build.`,framework:`framework`,where:`where`,takenAway:`taken away`,how:`how`,ground:`ground`,relieved:`relieved`,bent:`bent`,nothing:`nothing`,seatsNow:`it seats now`,doesNotSeat:`does not seat`,minutes:`minutes`,total:`together`,film:`Silicone film under the rests`,filmHow:`Measured on the seated framework; it confirms or contradicts the seating that was computed.`,filmOff:`film less computed gap`,throughInspections:`Through the inspections`,jawRecord:`Wax rims and jaw record`,waxRims:`with wax rims on the framework`,vertical:`vertical dimension`,on:`on`,teethCard:`Teeth and shades`,toSet:`teeth to set`,mould:`tooth mould`,shade:`tooth shade`,gumShade:`gum shade`,delivery:`Delivery`,fits:`it fits`,fitsNot:`it does not fit`,followUp:`Recall`,worn:`is worn`,notWorn:`is not worn`,retains:`clasps hold`,loose:`clasps are loose`,sore:`sore spots`,fracture:`something broke`,relined:`base was relined`,back_:`Back again: remake, repair, reline`,backHow:`It becomes a case of its own in the register, linked to this one. A remake leaves a non-conformity open until its cause is known.`,remake:`remake`,repair:`repair`,reline:`reline`,newId:`id of the new case`,cause:`cause`,parentCase:`comes from`,children:`came back as`,amounts:`Powder and liquid`,baseVolume:`acrylic of the bases`,ofRun:`as worked out`,noBase:`This case has no base of acrylic that was worked out; give a volume.`,otherVolume:`another volume`,excess:`excess for the flash`,powder:`powder`,liquid:`liquid`,shrinkage:`linear shrinkage`,ideal:`ideal`,observed:`observed`,curing:`Curing`,cycle:`cycle`,cycle_long:`long: 74 °C overnight`,cycle_short:`short: 74 °C, then 100 °C`,cycle_own:`own`,bath:`bath`,rise:`rise in`,hold:`hold`,addStep:`One more step`,dropStep:`Take the last away`,packedOn:`packed on`,stone:`stone`,printedResin:`a printed resin model`,benchCool:`cool on the bench`,waterCool:`then in water`,bathCurve:`Temperature of the bath`,minutesAxis:`minutes`,packing:`Lots that went in`,powderLot:`lot of the powder`,liquidLot:`lot of the liquid`,toothLot:`lot of the teeth`,makersFirst:`The maker's instructions come first. Monomer is flammable and a sensitiser: gloves that hold it, air drawn off, no flame.`,seatedShare:`seated without adjustment, of those tried in`,noQuality:`Too few readings in these days: a chart needs three.`,bias_um:`Mean deviation of the metal`,rest_gap_um:`Gap under the rests`,p95_um:`95th percentile of the deviation`,adjusted_um:`Taken away at the try-in`,chartHow:`framework, in the order of building`,beyond:`beyond a limit`,longRun:`ninth or later on one side`,expectedOutside:`expected outside the limit`,interval:`95 % interval`,by_build:`by build`,by_machine:`by machine`,by_lot:`by lot of powder`,by_place:`by place on the platform`,count:`number`,mean:`mean`,sd:`standard deviation`,repeatability:`repeatability`,reproducibility:`reproducibility`,driversHow:`What goes with it: coefficients with their 95 % intervals. An interval that leaves zero out shows that things go together, no more.`,tooFewForDrivers:`Too few readings to tell what goes with it.`,clear:`leaves zero out`,unclear:`may be zero`,earlier_builds_of_powder:`each earlier build of the powder`,x_cm:`each cm to the right`,y_cm:`each cm to the back`,off_centre_cm:`each cm off the centre`,mass_g:`each gram of metal`,inspected_bias_um:`each µm of inspected deviation`,intercept:`constant`,asSeen:`Along my view`,asSeenHow:`Turn the model until you look along the path you want, then take its tilts over.`,clearance:`to the opposing arch`,rootWidth:`width at the root`,rootThickness:`thickness at the root`,mesial:`mesial`,distal:`distal`,width:`width`,thickness:`thickness`,fromMargins:`distance from the margins`,reliefOf:`relief`,buccalReach:`reach of the base, outwards`,lingualReach:`reach of the base, inwards`},zt={clinic:`Klinik`,acrylic:`Kunststoff`,quality:`Qualität`,signFirst:`Einträge werden unterschrieben:`,entered:`Eingetragen, Nummer`,approval:`Freigabe`,approvalHow:`Verordnende geben eine Fassung über ihren Hash frei: genau diese Dateien und keine späteren.`,offer:`Diesen Entwurf zur Freigabe vorlegen`,staleOffer:`Das Fallblatt wurde seit der Ausarbeitung geändert; vor dem Vorlegen ausarbeiten.`,revision:`Fassung`,hash:`Hash`,answers:`Antworten`,noRevision:`Noch kein Entwurf vorgelegt.`,approved:`freigegeben`,refused:`nicht freigegeben`,open:`noch keine Antwort`,pasteAnswer:`Text von der Seite für die Zahnmedizin`,pasteHow:`Die Seite review.html schreibt diesen Text; die Hashes darin sagen, welcher Entwurf gesehen wurde.`,takeAnswer:`Antwort übernehmen`,byHand:`Eine Antwort auf anderem Weg`,seenHash:`gesehener Hash, mindestens die ersten 12 Zeichen`,remark:`Bemerkung`,altered:`Altered Cast (geteiltes Modell der Freienden)`,alteredUnsaid:`Freienden: angeben, ob ein Altered Cast nötig ist.`,needed:`nötig`,notNeeded:`nicht nötig`,doneOn:`erledigt am`,tryIn:`Einprobe`,tryInHow:`Wo Metall weggenommen wurde und wie viel: die einzige Wahrheit über die Passung. Es geht in die Qualitätskarten ein.`,noParts:`Noch kein Gerüst im Register: seinen Bau auf der Seite Bau eintragen.`,framework:`Gerüst`,where:`wo`,takenAway:`weggenommen`,how:`wie`,ground:`beschliffen`,relieved:`freigelegt`,bent:`gebogen`,nothing:`nichts`,seatsNow:`sitzt jetzt`,doesNotSeat:`sitzt nicht`,minutes:`Minuten`,total:`zusammen`,film:`Silikonfilm unter den Auflagen`,filmHow:`Am aufgesetzten Gerüst gemessen; bestätigt oder widerlegt den berechneten Sitz.`,filmOff:`Film minus berechneter Spalt`,throughInspections:`Über die Prüfungen`,jawRecord:`Wachswälle und Kieferrelation`,waxRims:`mit Wachswällen auf dem Gerüst`,vertical:`Vertikaldimension`,on:`am`,teethCard:`Zähne und Farben`,toSet:`aufzustellende Zähne`,mould:`Zahnform`,shade:`Zahnfarbe`,gumShade:`Zahnfleischfarbe`,delivery:`Eingliederung`,fits:`passt`,fitsNot:`passt nicht`,followUp:`Nachkontrolle`,worn:`wird getragen`,notWorn:`wird nicht getragen`,retains:`Klammern halten`,loose:`Klammern locker`,sore:`Druckstellen`,fracture:`etwas gebrochen`,relined:`Basis unterfüttert`,back_:`Zurückgekommen: Neuanfertigung, Reparatur, Unterfütterung`,backHow:`Es wird ein eigener Fall im Register, mit diesem verbunden. Bei einer Neuanfertigung bleibt eine Abweichung offen, bis ihre Ursache bekannt ist.`,remake:`Neuanfertigung`,repair:`Reparatur`,reline:`Unterfütterung`,newId:`Kennung des neuen Falls`,cause:`Ursache`,parentCase:`stammt von`,children:`kam zurück als`,amounts:`Pulver und Flüssigkeit`,baseVolume:`Kunststoff der Basen`,ofRun:`wie ausgearbeitet`,noBase:`Für diesen Fall ist keine Kunststoffbasis ausgearbeitet; ein Volumen angeben.`,otherVolume:`anderes Volumen`,excess:`Überschuss zum Pressen`,powder:`Pulver`,liquid:`Flüssigkeit`,shrinkage:`lineare Schrumpfung`,ideal:`ideal`,observed:`beobachtet`,curing:`Polymerisation`,cycle:`Zyklus`,cycle_long:`lang: 74 °C über Nacht`,cycle_short:`kurz: 74 °C, dann 100 °C`,cycle_own:`eigener`,bath:`Bad`,rise:`Anstieg in`,hold:`Halten`,addStep:`Ein weiterer Schritt`,dropStep:`Den letzten wegnehmen`,packedOn:`gepresst auf`,stone:`Gips`,printedResin:`ein gedrucktes Kunststoffmodell`,benchCool:`an der Luft abkühlen`,waterCool:`dann im Wasser`,bathCurve:`Temperatur des Bades`,minutesAxis:`Minuten`,packing:`Verarbeitete Lose`,powderLot:`Los des Pulvers`,liquidLot:`Los der Flüssigkeit`,toothLot:`Los der Zähne`,makersFirst:`Die Angaben des Herstellers gehen vor. Monomer ist entzündlich und sensibilisiert: dichte Handschuhe, Absaugung, keine Flamme.`,seatedShare:`ohne Nacharbeit aufgesetzt, von den einprobierten`,noQuality:`Zu wenige Werte in diesen Tagen: eine Karte braucht drei.`,bias_um:`Mittlere Abweichung des Metalls`,rest_gap_um:`Spalt unter den Auflagen`,p95_um:`95. Perzentil der Abweichung`,adjusted_um:`Bei der Einprobe weggenommen`,chartHow:`Gerüst, in der Reihenfolge des Baus`,beyond:`jenseits einer Grenze`,longRun:`neunter oder späterer auf einer Seite`,expectedOutside:`erwartet jenseits der Grenze`,interval:`95-%-Intervall`,by_build:`nach Bau`,by_machine:`nach Maschine`,by_lot:`nach Pulverlos`,by_place:`nach Platz auf der Bauplattform`,count:`Anzahl`,mean:`Mittel`,sd:`Standardabweichung`,repeatability:`Wiederholpräzision`,reproducibility:`Vergleichspräzision`,driversHow:`Was damit zusammengeht: Koeffizienten mit 95-%-Intervallen. Ein Intervall ohne Null zeigt, dass etwas zusammengeht, nicht mehr.`,tooFewForDrivers:`Zu wenige Werte, um zu sagen, was damit zusammengeht.`,clear:`schließt die Null aus`,unclear:`kann null sein`,earlier_builds_of_powder:`je früherem Bau des Pulvers`,x_cm:`je cm nach rechts`,y_cm:`je cm nach hinten`,off_centre_cm:`je cm aus der Mitte`,mass_g:`je Gramm Metall`,inspected_bias_um:`je µm geprüfter Abweichung`,intercept:`Konstante`,asSeen:`Entlang meiner Blickrichtung`,asSeenHow:`Das Modell drehen, bis man entlang der gewünschten Einschubrichtung blickt, dann die Neigungen übernehmen.`,clearance:`zum Gegenkiefer`,rootWidth:`Breite an der Wurzel`,rootThickness:`Dicke an der Wurzel`,mesial:`mesial`,distal:`distal`,width:`Breite`,thickness:`Dicke`,fromMargins:`Abstand von den Gingivarändern`,reliefOf:`Entlastung`,buccalReach:`Reichweite der Basis, außen`,lingualReach:`Reichweite der Basis, innen`},Bt={surveyed:`Survey`,surveyHow:`Path of placement with its reasons, undercuts, guiding planes, and the marks that carry the path to the stone.`,surveyIt:`Write the survey`,otherScan:`Another scan`,otherScanHow:`Lays another scan of the same arch on the case's master and measures what differs: was a new scan needed, which teeth changed, where. Nothing is changed.`,compareScans:`Compare`,changeLimit:`changed beyond`,changedTeeth:`changed teeth`,byTooth:`By tooth`,greatest:`greatest`,changedArea:`changed area`,coupon:`Coupon for distortion`,couponHow:`A bridge on legs, printed like a framework. Cut all legs but the first and measure how far the free end rises: that gives the strain of this machine and powder. The files of the last one stay here.`,couponLength:`length, mm`,couponWidth:`width, mm`,couponHeight:`height of the bridge, mm`,couponLegs:`legs`,couponLeg:`length of a leg, mm`,couponLegHeight:`height of the legs, mm`,couponRise:`measured rise, mm`,couponAsk:`Work out the coupon`,recordStrain:`strain of the process record`,recordRise:`rise by it`,couponStrain:`strain from the measured rise`,couponEnter:`Enter it under [distortion] of the process record and name the coupon there.`,singleArm:`A single arm`,singleArmHow:`Force and stress of a bare half-round arm of no case, by bending alone. Slope and friction, given together, also give the withdrawal force.`,armLength:`length, mm`,armRadius:`radius at the root (thickness), mm`,armTaper:`tip over root`,armArc:`arc, ° (0: straight)`,armUndercut:`undercut, mm`,armSlope:`slope under the tip, °`,armFriction:`friction on wet enamel`,armAsk:`Work it out`,armForce:`force at the tip`,armPeakAt:`from the root`,modulus:`Young's modulus`,labPages:`Pages of the laboratory`,complaints:`complaints`,adjustedMean:`taken away at the try-in, mean`,monthPaper:`The month as PDF`,costs:`Cost of a good framework, by share`,share:`share`,printed:`laser powder bed`,cast:`lost-wax casting`,difference:`difference`,controlLimits:`control limits`,costTogether:`together`,share_powder:`powder`,share_machine:`machine`,share_furnace:`furnace`,share_labour:`labour`,share_alloy:`alloy`,share_materials:`materials`,bothOwn:`Both columns rest on prices and times that the laboratory gave. What was spoilt is borne by the good ones.`,examplePrices:`These prices are those of an example: give your own below.`,castNotGiven:`What a casting costs here was not given.`,noGood:`No framework of these days has passed its inspection yet.`,prices:`What things cost here`,pricesHow:`Kept in the laboratory's file; the command line reads them there too.`,currency:`currency`,powder_per_g:`powder, per gram`,machine_per_build:`machine, per build`,furnace_per_hour:`furnace, per hour`,labour_per_framework:`labour, per framework, good or not`,castByShares:`Lost-wax casting by its shares, for one framework`,alloy_g:`alloy melted, sprues too, g`,alloy_per_g:`alloy, per gram`,materials:`wax, duplicating mass, investment, gas`,labour:`labour`,remake_share:`made again, %`,casting_per_framework:`or by one figure, for one framework`,keepPrices:`Keep these prices`,kept:`kept`,feedstock:`Powder`,lotsHere:`Lots of powder`,noLots:`No lot is in the register yet.`,lot:`lot`,alloy:`alloy`,receivedOn:`received on`,receivedMass:`mass received, g`,makersLot:`maker's lot`,expiresOn:`to be used by`,certificate:`certificate`,certPassed:`holds`,certFailed:`does not hold`,certNone:`no certificate judged yet`,certificateOf:`Certificate of a lot`,certificateHow:`Type what the maker certifies, or send it as a file; each value is held against its limit at once.`,certificateFile:`File of the certificate (.toml)`,sendFile:`Read the file`,whatItHolds:`Value`,limitOf:`Limit`,verdict:`Verdict`,holds:`holds`,notShown:`not shown`,toDeclare:`to be declared`,declareIt:`declare it, with warning`,noLimit:`no limit is kept`,otherElement:`Another element`,addElement:`Add it`,atMost:`at most`,mustShow:`The certificate must show`,item_chemistry:`chemistry`,item_size:`size of grains`,item_flow:`flow`,item_density:`apparent density`,item_moisture:`moisture`,item_lot:`lot`,newLot:`The register does not hold this lot yet: it is entered with it.`,enterCertificate:`Enter the certificate`,enterFailed:`Enter it as not holding`,certDespite:`A lot that does not hold its specification stops every case that holds its powder.`,registerState:`How it stands`,noRegister:`There is no register yet.`,oldRegister:`The register was made by another version of the program.`,makeRegister:`Make the register`,bringUp:`Bring it up to date; all data stay`,entriesCount:`entries`,headNow:`head`,headHow:`Note the head somewhere else: with it even a register that was rewritten as a whole is found out.`,checkTitle:`Is it whole?`,checkHow:`Checks the chain of entries, what follows from it, every signature and every file.`,headNoted:`head noted before (may be left empty)`,checkNow:`Check`,neverChecked:`Not checked from here yet.`,isWhole:`whole`,notWhole:`something was changed`,checkedOn:`checked on`,againstHead:`against the noted`,entriesSince:`entries added since`,backups:`Backups`,backupHow:`One file with everything, health data too: keep it as safe as the register, and away from this machine.`,backupNow:`Back up`,noBackups:`No backup was written from here yet.`,tryBackup:`Try it out`,triedBackup:`restored and whole`,restoreHow:`Trying out fills a register in the folder restored/ and checks it; the open register is left alone. To put a backup in its place, close the bench, keep the old folder register/ under another name, and give the command`,exports:`Tables`,exportHow:`What stands in the register as tables, without health data.`,exportNow:`Write the tables`,noExports:`No tables were written from here yet.`,file:`file`,size:`size`,lookUp:`Look up`,lookUpHow:`A thing by its kind and id; without an id everything of the kind.`,showEntries:`Show`,traceIt:`What it came from`,recallIt:`Who carries it`,nothingFound:`Nothing.`,cameFrom:`came from`,recallOf:`Recall of`,recallPaper:`Recall list as PDF`,recallCount:`frameworks`,recallNone:`No framework holds powder of it.`,signIt:`Sign it as it stands`,meaning:`what the signature says`,office:`office`,persons:`Health data of a patient`,personsHow:`They lie apart from the entries, under the pseudonym that the case and the labels carry.`,pseudonym:`pseudonym`,showPerson:`Show`,personNone:`Nothing is kept of them.`,personFields:`One line each: name: value`,keepPerson:`Keep this`,erase:`Erase`,eraseHow:`By right of the patient. The entries, which hold the pseudonym alone, stay whole. Backups, and registers that were restored from them, still hold the data: delete those by your own rules, and mind how long the law wants records kept.`,eraseReason:`reason`,eraseAgain:`pseudonym once more`,eraseDiffers:`The two pseudonyms differ; nothing was erased`,leadOnly:`Check, backups, tables and health data are the production lead's.`},Vt={surveyed:`Vermessung`,surveyHow:`Einschubrichtung mit Gründen, Unterschnitte, Führungsflächen und die Marken, die die Richtung auf den Gips bringen.`,surveyIt:`Vermessung schreiben`,otherScan:`Ein anderer Scan`,otherScanHow:`Legt einen anderen Scan desselben Kiefers auf den Scan des Arbeitsmodells und misst, was abweicht: ob ein neuer Scan nötig war, welche Zähne sich verändert haben, wo. Geändert wird nichts.`,compareScans:`Vergleichen`,changeLimit:`verändert ab`,changedTeeth:`veränderte Zähne`,byTooth:`Nach Zähnen`,greatest:`größte`,changedArea:`veränderte Fläche`,coupon:`Probekörper für den Verzug`,couponHow:`Eine Brücke auf Beinen, gedruckt wie ein Gerüst. Alle Beine außer dem ersten durchtrennen und messen, wie weit sich das freie Ende hebt: das gibt die Dehnung dieser Maschine mit diesem Pulver. Die Dateien des letzten bleiben hier.`,couponLength:`Länge, mm`,couponWidth:`Breite, mm`,couponHeight:`Höhe der Brücke, mm`,couponLegs:`Beine`,couponLeg:`Länge eines Beins, mm`,couponLegHeight:`Höhe der Beine, mm`,couponRise:`gemessene Hebung, mm`,couponAsk:`Probekörper berechnen`,recordStrain:`Dehnung im Prozessblatt`,recordRise:`Hebung danach`,couponStrain:`Dehnung aus der gemessenen Hebung`,couponEnter:`Unter [distortion] im Prozessblatt eintragen und dort den Probekörper nennen.`,singleArm:`Ein einzelner Arm`,singleArmHow:`Kraft und Spannung eines bloßen halbrunden Arms, der zu keinem Fall gehört, aus Biegung allein. Neigung und Reibung, zusammen angegeben, ergeben auch die Abzugskraft.`,armLength:`Länge, mm`,armRadius:`Radius an der Wurzel (Dicke), mm`,armTaper:`Spitze zu Wurzel`,armArc:`Bogen, ° (0: gerade)`,armUndercut:`Unterschnitt, mm`,armSlope:`Neigung unter der Spitze, °`,armFriction:`Reibung auf feuchtem Schmelz`,armAsk:`Berechnen`,armForce:`Kraft an der Spitze`,armPeakAt:`von der Wurzel`,modulus:`E-Modul`,labPages:`Seiten des Labors`,complaints:`Beanstandungen`,adjustedMean:`bei der Anprobe abgetragen, Mittel`,monthPaper:`Der Monat als PDF`,costs:`Kosten eines guten Gerüsts nach Anteilen`,share:`Anteil`,printed:`Laser im Pulverbett`,cast:`Wachsausschmelzguss`,difference:`Unterschied`,controlLimits:`Regelgrenzen`,costTogether:`zusammen`,share_powder:`Pulver`,share_machine:`Maschine`,share_furnace:`Ofen`,share_labour:`Arbeit`,share_alloy:`Legierung`,share_materials:`Material`,bothOwn:`Beide Spalten beruhen auf Preisen und Zeiten, die das Labor angegeben hat. Ausschuss tragen die guten.`,examplePrices:`Diese Preise sind ein Beispiel: unten die eigenen angeben.`,castNotGiven:`Was ein Guss hier kostet, ist nicht angegeben.`,noGood:`Aus diesen Tagen hat noch kein Gerüst seine Prüfung bestanden.`,prices:`Was Dinge hier kosten`,pricesHow:`Liegt in der Datei des Labors; die Befehlszeile liest es ebenfalls dort.`,currency:`Währung`,powder_per_g:`Pulver, je Gramm`,machine_per_build:`Maschine, je Bau`,furnace_per_hour:`Ofen, je Stunde`,labour_per_framework:`Arbeit, je Gerüst, gut oder nicht`,castByShares:`Wachsausschmelzguss nach Anteilen, für ein Gerüst`,alloy_g:`Legierung geschmolzen, mit Kanälen, g`,alloy_per_g:`Legierung, je Gramm`,materials:`Wachs, Dubliermasse, Einbettmasse, Gas`,labour:`Arbeit`,remake_share:`neu gemacht, %`,casting_per_framework:`oder eine Zahl, für ein Gerüst`,keepPrices:`Diese Preise behalten`,kept:`behalten`,feedstock:`Pulver`,lotsHere:`Pulverlose`,noLots:`Noch kein Los im Register.`,lot:`Los`,alloy:`Legierung`,receivedOn:`eingegangen am`,receivedMass:`eingegangene Masse, g`,makersLot:`Los des Herstellers`,expiresOn:`zu verbrauchen bis`,certificate:`Zeugnis`,certPassed:`hält`,certFailed:`hält nicht`,certNone:`noch kein Zeugnis beurteilt`,certificateOf:`Zeugnis eines Loses`,certificateHow:`Eintippen, was der Hersteller bescheinigt, oder als Datei senden; jeder Wert wird sofort an seiner Grenze gemessen.`,certificateFile:`Datei des Zeugnisses (.toml)`,sendFile:`Datei lesen`,whatItHolds:`Wert`,limitOf:`Grenze`,verdict:`Urteil`,holds:`hält`,notShown:`nicht angegeben`,toDeclare:`anzugeben`,declareIt:`angeben, mit Warnung`,noLimit:`keine Grenze hinterlegt`,otherElement:`Weiteres Element`,addElement:`Hinzufügen`,atMost:`höchstens`,mustShow:`Das Zeugnis muss zeigen`,item_chemistry:`Zusammensetzung`,item_size:`Korngröße`,item_flow:`Fließverhalten`,item_density:`Schüttdichte`,item_moisture:`Feuchte`,item_lot:`Los`,newLot:`Das Register hat dieses Los noch nicht: es wird mit eingetragen.`,enterCertificate:`Zeugnis eintragen`,enterFailed:`Als nicht haltend eintragen`,certDespite:`Ein Los, das seine Vorgaben nicht hält, hält jeden Fall auf, der sein Pulver enthält.`,registerState:`Wie es steht`,noRegister:`Es gibt noch kein Register.`,oldRegister:`Das Register stammt von einer anderen Fassung des Programms.`,makeRegister:`Register anlegen`,bringUp:`Auf den Stand bringen; alle Daten bleiben`,entriesCount:`Einträge`,headNow:`Kopf`,headHow:`Den Kopf anderswo notieren: damit fällt selbst ein ganz neu geschriebenes Register auf.`,checkTitle:`Ist es unversehrt?`,checkHow:`Prüft die Kette der Einträge, was aus ihr folgt, jede Unterschrift und jede Datei.`,headNoted:`früher notierter Kopf (darf leer bleiben)`,checkNow:`Prüfen`,neverChecked:`Von hier aus noch nicht geprüft.`,isWhole:`unversehrt`,notWhole:`etwas wurde verändert`,checkedOn:`geprüft am`,againstHead:`gegen den notierten`,entriesSince:`seither eingetragen`,backups:`Sicherungen`,backupHow:`Eine Datei mit allem, auch den Gesundheitsdaten: so sicher verwahren wie das Register, und nicht auf diesem Rechner.`,backupNow:`Sichern`,noBackups:`Von hier aus wurde noch nichts gesichert.`,tryBackup:`Ausprobieren`,triedBackup:`zurückgespielt und unversehrt`,restoreHow:`Ausprobieren füllt ein Register im Ordner restored/ und prüft es; das offene Register bleibt, wie es ist. Um eine Sicherung an seine Stelle zu setzen: die Werkbank schließen, den alten Ordner register/ unter anderem Namen behalten und diesen Befehl geben`,exports:`Tabellen`,exportHow:`Was im Register steht, als Tabellen, ohne Gesundheitsdaten.`,exportNow:`Tabellen schreiben`,noExports:`Von hier aus wurden noch keine Tabellen geschrieben.`,file:`Datei`,size:`Größe`,lookUp:`Nachschlagen`,lookUpHow:`Etwas nach Art und Kennung; ohne Kennung alles von der Art.`,showEntries:`Zeigen`,traceIt:`Woraus es entstand`,recallIt:`Wer es trägt`,nothingFound:`Nichts.`,cameFrom:`entstand aus`,recallOf:`Rückruf von`,recallPaper:`Rückrufliste als PDF`,recallCount:`Gerüste`,recallNone:`Kein Gerüst enthält Pulver davon.`,signIt:`So unterschreiben, wie es steht`,meaning:`was die Unterschrift besagt`,office:`Funktion`,persons:`Gesundheitsdaten eines Patienten`,personsHow:`Sie liegen getrennt von den Einträgen, unter dem Pseudonym, das Fall und Etiketten tragen.`,pseudonym:`Pseudonym`,showPerson:`Zeigen`,personNone:`Von ihm ist nichts hinterlegt.`,personFields:`Je Zeile eins: Name: Wert`,keepPerson:`So hinterlegen`,erase:`Löschen`,eraseHow:`Auf Verlangen des Patienten. Die Einträge, die nur das Pseudonym enthalten, bleiben unversehrt. Sicherungen, und daraus zurückgespielte Register, enthalten die Daten weiterhin: nach eigenen Regeln löschen, und beachten, wie lange das Gesetz Aufzeichnungen verlangt.`,eraseReason:`Grund`,eraseAgain:`Pseudonym noch einmal`,eraseDiffers:`Die beiden Pseudonyme weichen ab; nichts wurde gelöscht`,leadOnly:`Prüfung, Sicherungen, Tabellen und Gesundheitsdaten sind Sache der Fertigungsleitung.`},Ht={en:{...Rt,...Bt,cases:`Cases`,newCase:`New case`,name:`Case`,due:`Due`,standing:`Standing`,kennedy:`Class`,findings:`Findings`,prescription:`Prescription`,plan:`Arch plan`,planHow:`Choose a tooth to see and change what it carries.`,model:`Model`,path:`Path of placement`,connector:`Major connector`,evidence:`Evidence`,files:`Files`,trail:`Trail`,sheet:`Case sheet`,workOut:`Work out`,cancel:`Cancel`,undo:`Undo`,redo:`Redo`,keep:`Put into the sheet`,propose:`Have it proposed`,search:`Have it searched`,prescribe:`Prescribe`,show:`Show`,look:`Look`,stop:`must not go on`,lookAt:`a person must judge`,note:`for the record`,measured:`measured`,limit:`limit`,alike:`more of the same`,source:`source`,stale:`The sheet or a scan has changed since this was worked out.`,never:`Not worked out yet.`,lost:`The connection is lost; trying again.`,anterior:`anterior tilt`,lateral:`right lateral tilt`,turn:`Turn`,measure:`Measure`,section:`Section`,tip:`Clasp tip`,mark:`Tooth mark`,whole:`Whole framework`,border:`Border, base, seat, arm`,dragBorder:`Drag the ring of a connector's border, of a base's border, of a rest, of an arm's beginning or of its course; what it means against the anatomy goes into the sheet. Rings lie on the framework as worked out last. Keys: ] and [ take a ring, Alt and arrows move it, Enter lets it go.`,dragMark:`Drag the ring of a tooth's mark to where the tooth is. Keys: ] and [ take a mark, Alt and arrows move it, Enter lets it go.`,coneMap:`Points of each tilt, fewer are better`,coneHow:`Choose a place to take its tilts over; the dashed ring is 10°.`,points:`points`,leastUndercut:`weakest clasp`,straight:`straight`,over:`over the surface`,area:`area`,undercut:`undercut`,here:`here`,dragTip:`Drag the ring of a clasp tip over the tooth; the undercut under it goes into the sheet. Keys: ] and [ take a tip, Alt and arrows move it, Enter lets it go.`,measureHow:`Choose two places on the model; on the metal its thickness is told, everywhere the way to the opposing arch.`,sectionHow:`Choose a place; the plane runs across the arch there.`,turnHow:`Drag to turn, right button or two fingers to shift, wheel or pinch for size. Keys: arrows, shift and arrows, + and −, 0; Enter takes the place in the middle.`,reset:`Clear`,author:`Your name`,reason:`Why`,compare:`What changed`,compared:`Two revisions`,endComparison:`End the comparison`,notKept:`was not worked out, or its solid is no longer kept (the 12 worked out last are). Go back to it and work it out.`,comparing:`The solids are being held against each other.`,shownOfThem:`Shown`,wayBoth:`Both`,wayOlder:`Older`,wayNewer:`Newer`,wayGained:`Gained`,wayLost:`Lost`,findingCame:`New:`,findingWent:`Gone:`,findingChanged:`Changed:`,greatestGain:`The newer stands out of the older by up to`,greatestLoss:`The older stood out of the newer by up to`,noDifference:`nothing differs`,measure_:`Measure`,noFindings:`No findings.`,master:`Master scan`,opposing:`Opposing scan`,bite:`Bite record`,missing:`Missing teeth`,notReplaced:`Of these not replaced`,depth:`Functional lingual depth, probed`,patient:`Patient (a pseudonym)`,prescriber:`Prescriber`,laboratory:`Laboratory`,allergies:`Allergies, with commas`,make:`Make the case`,back:`All cases`,caution:`Computed aid. It does not replace the prescription or the judgement of the licensed dentist; local codes and the makers' instructions come first.`,rests:`Rests`,plates:`Proximal plates`,clasp:`Clasp`,none:`none`,side:`side`,reciprocal:`reciprocal arm`,origin:`origin`,originFree:`origin at plate or rest`,courseSet:`Places that its course is led through`,courseFree:`Course as planned`,indirect:`indirect retainer`,room:`Deepest undercut along this path`,buccal:`buccal`,lingual:`lingual`,jobs:`Work`,noCases:`No cases yet. Drop scans in with “New case”.`,language:`Language`,lines:`Survey lines`,enterToo:`Enter it in the register`,instrument:`instrument`,frameworkId:`framework's id`,lots:`lots or batches of powder`,signIn:`Sign in`,signOut:`Sign out`,account:`Account`,password:`Password`,technician:`technician`,lead:`production lead`,dentist:`dentist`,piecesAlone:`The parts that change are shown as they would lie, uncut; findings and files come from Work out.`,asItWouldBe:`Findings on the clasps are shown as they would be with the change; work out to settle all.`,pages:`Pages of the case`,design:`Design`,preparation:`Preparation`,proof:`Proof`,build:`Build`,furnace:`Furnace`,inspection:`Inspection`,papers:`Papers`,month:`The month`,done:`done`,pointer:`What the pointer does`,prove:`Prove`,withStress:`with the stress of the solid (takes minutes)`,neverProved:`Not proved yet: forces of the arms, what lifts the denture, stress.`,lifting:`What lifts the denture`,leastLift:`least force that lifts`,withoutIndirect:`there without indirect retainers`,liftsAbout:`lifts about`,arms:`Clasp arms`,tooth:`tooth`,withdrawal:`withdrawal`,range:`range`,peakStress:`peak stress`,fatigue:`Goodman factor`,insertion:`insertion`,liftMm:`lift, mm`,alongMm:`along the arm, mm`,stressAlong:`stress along the arm`,stress:`stress`,solid:`The solid`,elements:`elements`,twist:`twist under 10 N`,spread:`spread under 10 N`,load:`load`,yieldsAt:`yields at`,neverBuilt:`No build holds this case yet.`,machine:`machine`,process:`process`,orientation:`orientation, best first`,together:`with`,prepareBuild:`Prepare the build`,platform:`platform`,time:`time`,height:`height`,layers:`layers`,layer:`Layer`,layerTop:`top of the layer`,contours:`contours`,melted:`melted`,leastDistance:`least distance`,part:`part`,tag:`tag`,contacts:`contacts`,pathTilt:`path from vertical`,notValidated:`The layer files have not been validated on any machine.`,log:`Logger's file`,schedule:`schedule`,judge:`Judge the run`,neverRun:`No log was judged yet.`,passed:`passed`,failed:`failed`,purge:`purge`,ramp:`ramp`,highest:`highest`,soak:`soak`,soakMean:`mean while soaking`,cooling:`cooling`,unloading:`when unloaded`,metalScan:`Scan of the metal`,inspect:`Inspect`,neverInspected:`No scan of the finished metal yet.`,deviation:`Deviation`,trueness:`mean deviation (trueness)`,meanAbs:`mean`,rms:`root mean square`,p95:`95th percentile`,overlap:`overlap`,signHow:`Positive: the scan lies outside the design.`,seating:`Seating on the model`,tilt:`tilt`,rocks:`rocks by`,rest:`rest`,gap:`Gap under the rests`,readPreparation:`Read seats and guiding planes`,neverPrepared:`Not read yet: rest seats and guiding planes as they are, and what to reduce.`,asks:`What the dentist should still do`,nothingToReduce:`Nothing is left to reduce.`,place:`place`,reduce:`reduce`,guidingPlane:`guiding plane`,rescan:`A new scan`,rescanHow:`A new scan of the same arch makes a copy of the case; marks and places are carried over.`,newName:`name of the new case`,takeIn:`Take it in`,writePapers:`Write the documents`,mayLeave:`May it leave?`,sent:`sent`,notEntered:`The register does not hold this case yet.`,enterCase:`Enter the case`,nothingOpen:`No stop is open.`,send:`Enter that it was sent`,nameFirst:`Entries are signed: write your name above.`,register:`Register`,newEntry:`A new entry`,kind:`kind`,id:`id`,enter:`Enter`,keepParticulars:`Keep`,lab_name:`name`,lab_address:`address`,lab_responsible:`who signs`,lab_country:`country`,lab_registration:`registration`,lab_phone:`phone`,firstDay:`from`,lastDay:`to`,frameworks:`frameworks`,late:`late`,turnaround:`turnaround, median`,builds:`builds`,furnaceHours:`furnace hours`,furnaceFailed:`furnace runs failed`,costEach:`cost of a good framework`,remakes:`Remakes by cause`,outside:`outside`,byPlace:`Mean deviation by place on the platform`,lostPowder:`powder lost`},de:{...zt,...Vt,cases:`Fälle`,newCase:`Neuer Fall`,name:`Fall`,due:`Fällig`,standing:`Stand`,kennedy:`Klasse`,findings:`Befunde`,prescription:`Verordnung`,plan:`Zahnbogenplan`,planHow:`Einen Zahn wählen, um zu sehen und zu ändern, was er trägt.`,model:`Modell`,path:`Einschubrichtung`,connector:`Großer Verbinder`,evidence:`Nachweise`,files:`Dateien`,trail:`Verlauf`,sheet:`Fallblatt`,workOut:`Ausarbeiten`,cancel:`Abbrechen`,undo:`Zurück`,redo:`Wieder vor`,keep:`Ins Fallblatt`,propose:`Vorschlagen lassen`,search:`Suchen lassen`,prescribe:`Vorgeben`,show:`Zeigen`,look:`Ansicht`,stop:`darf nicht weitergehen`,lookAt:`ein Mensch muss urteilen`,note:`zur Kenntnis`,measured:`gemessen`,limit:`Grenze`,alike:`weitere gleicher Art`,source:`Quelle`,stale:`Fallblatt oder Scan wurden seit der Ausarbeitung geändert.`,never:`Noch nicht ausgearbeitet.`,lost:`Die Verbindung ist unterbrochen; neuer Versuch.`,anterior:`Neigung nach vorn`,lateral:`Neigung nach rechts`,turn:`Drehen`,measure:`Messen`,section:`Schnitt`,tip:`Klammerspitze`,mark:`Zahnmarke`,whole:`Ganzes Gerüst`,border:`Rand, Basis, Auflage, Arm`,dragBorder:`Den Ring eines Verbinderrandes, eines Basisrandes, einer Auflage, eines Armbeginns oder eines Armverlaufs ziehen; was er an der Anatomie bedeutet, kommt in das Blatt. Die Ringe liegen auf dem zuletzt berechneten Gerüst. Tasten: ] und [ nehmen einen Ring, Alt und Pfeile bewegen ihn, Eingabe lässt ihn los.`,dragMark:`Den Ring einer Zahnmarke dorthin ziehen, wo der Zahn ist. Tasten: ] und [ nehmen eine Marke, Alt und Pfeile bewegen sie, Eingabe lässt sie los.`,coneMap:`Punkte jeder Neigung, weniger ist besser`,coneHow:`Eine Stelle wählen, um ihre Neigungen zu übernehmen; der gestrichelte Ring ist 10°.`,points:`Punkte`,leastUndercut:`schwächste Klammer`,straight:`gerade`,over:`über die Oberfläche`,area:`Fläche`,undercut:`Unterschnitt`,here:`hier`,dragTip:`Den Ring einer Klammerspitze über den Zahn ziehen; der Unterschnitt darunter kommt ins Fallblatt. Tasten: ] und [ nehmen eine Spitze, Alt und Pfeile bewegen sie, Eingabe lässt sie los.`,measureHow:`Zwei Stellen auf dem Modell wählen; auf dem Metall steht seine Dicke, überall der Weg zum Gegenkiefer.`,sectionHow:`Eine Stelle wählen; die Ebene läuft dort quer zum Zahnbogen.`,turnHow:`Ziehen dreht, rechte Taste oder zwei Finger verschieben, Rad oder zwei Finger für die Größe. Tasten: Pfeile, Umschalt und Pfeile, + und −, 0; Eingabe nimmt die Stelle in der Mitte.`,reset:`Leeren`,author:`Ihr Name`,reason:`Warum`,compare:`Was sich geändert hat`,compared:`Zwei Fassungen`,endComparison:`Vergleich beenden`,notKept:`wurde nicht berechnet, oder ihr Körper ist nicht mehr aufgehoben (die 12 zuletzt berechneten sind es). Zu ihr zurückgehen und sie berechnen.`,comparing:`Die Körper werden aneinander gehalten.`,shownOfThem:`Gezeigt`,wayBoth:`Beide`,wayOlder:`Ältere`,wayNewer:`Neuere`,wayGained:`Hinzugekommen`,wayLost:`Weggefallen`,findingCame:`Neu:`,findingWent:`Weg:`,findingChanged:`Geändert:`,greatestGain:`Die neuere ragt aus der älteren um bis zu`,greatestLoss:`Die ältere ragte aus der neueren um bis zu`,noDifference:`nichts weicht ab`,measure_:`Maß`,noFindings:`Keine Befunde.`,master:`Scan des Arbeitsmodells`,opposing:`Scan des Gegenkiefers`,bite:`Bissregistrat`,missing:`Fehlende Zähne`,notReplaced:`Davon nicht ersetzt`,depth:`Funktionelle linguale Tiefe, sondiert`,patient:`Patient (ein Pseudonym)`,prescriber:`Verordner`,laboratory:`Labor`,allergies:`Allergien, mit Kommas`,make:`Fall anlegen`,back:`Alle Fälle`,caution:`Rechenhilfe. Sie ersetzt weder die Verordnung noch das Urteil der approbierten Zahnärztin oder des Zahnarztes; örtliche Vorschriften und Angaben der Hersteller gehen vor.`,rests:`Auflagen`,plates:`Approximalplatten`,clasp:`Klammer`,none:`keine`,side:`Seite`,reciprocal:`Widerlagerarm`,origin:`Ursprung`,originFree:`Ursprung an Platte oder Auflage`,courseSet:`Stellen, durch die sein Verlauf geführt wird`,courseFree:`Verlauf wie geplant`,indirect:`indirekter Halter`,room:`Tiefster Unterschnitt bei dieser Einschubrichtung`,buccal:`bukkal`,lingual:`lingual`,jobs:`Arbeit`,noCases:`Noch keine Fälle. Mit „Neuer Fall“ Scans ablegen.`,language:`Sprache`,lines:`Prothesenäquator`,enterToo:`Im Register eintragen`,instrument:`Messmittel`,frameworkId:`Kennung des Gerüsts`,lots:`Lose oder Chargen des Pulvers`,signIn:`Anmelden`,signOut:`Abmelden`,account:`Konto`,password:`Passwort`,technician:`Technik`,lead:`Fertigungsleitung`,dentist:`Zahnmedizin`,piecesAlone:`Die Teile, die sich ändern, sind ungeschnitten gezeigt, wie sie lägen; Befunde und Dateien kommen vom Ausarbeiten.`,asItWouldBe:`Befunde zu den Klammern stehen hier so, wie sie mit der Änderung wären; Ausarbeiten legt alles fest.`,pages:`Seiten des Falls`,design:`Entwurf`,preparation:`Präparation`,proof:`Nachweis`,build:`Bau`,furnace:`Ofen`,inspection:`Prüfung`,papers:`Papiere`,month:`Der Monat`,done:`vorhanden`,pointer:`Was der Zeiger tut`,prove:`Nachweisen`,withStress:`mit der Spannung des Körpers (dauert Minuten)`,neverProved:`Noch nicht nachgewiesen: Kräfte der Arme, was die Prothese abhebt, Spannung.`,lifting:`Was die Prothese abhebt`,leastLift:`kleinste abhebende Kraft`,withoutIndirect:`dort ohne indirekte Halter`,liftsAbout:`hebt sich um`,arms:`Klammerarme`,tooth:`Zahn`,withdrawal:`Abzug`,range:`Spanne`,peakStress:`höchste Spannung`,fatigue:`Goodman-Faktor`,insertion:`Aufsetzen`,liftMm:`Hub, mm`,alongMm:`entlang des Arms, mm`,stressAlong:`Spannung entlang des Arms`,stress:`Spannung`,solid:`Der Körper`,elements:`Elemente`,twist:`Verwindung unter 10 N`,spread:`Aufweitung unter 10 N`,load:`Last`,yieldsAt:`fließt bei`,neverBuilt:`Noch kein Bau enthält diesen Fall.`,machine:`Maschine`,process:`Prozess`,orientation:`Lage, beste zuerst`,together:`zusammen mit`,prepareBuild:`Bau vorbereiten`,platform:`Bauplattform`,time:`Zeit`,height:`Höhe`,layers:`Schichten`,layer:`Schicht`,layerTop:`Oberkante der Schicht`,contours:`Konturen`,melted:`geschmolzen`,leastDistance:`kleinster Abstand`,part:`Teil`,tag:`Marke`,contacts:`Kontakte`,pathTilt:`Einschub zur Senkrechten`,notValidated:`Die Schichtdateien wurden an keiner Maschine validiert.`,log:`Datei des Loggers`,schedule:`Glühplan`,judge:`Lauf beurteilen`,neverRun:`Noch keine Aufzeichnung beurteilt.`,passed:`bestanden`,failed:`nicht bestanden`,purge:`Spülen`,ramp:`Aufheizen`,highest:`höchste`,soak:`Halten`,soakMean:`Mittel beim Halten`,cooling:`Abkühlen`,unloading:`beim Ausladen`,metalScan:`Scan des Metalls`,inspect:`Prüfen`,neverInspected:`Noch kein Scan des fertigen Metalls.`,deviation:`Abweichung`,trueness:`mittlere Abweichung (Richtigkeit)`,meanAbs:`Mittel`,rms:`quadratisches Mittel`,p95:`95. Perzentil`,overlap:`Überdeckung`,signHow:`Positiv: der Scan liegt außerhalb des Entwurfs.`,seating:`Sitz auf dem Modell`,tilt:`Kippung`,rocks:`schaukelt um`,rest:`Auflage`,gap:`Spalt unter den Auflagen`,readPreparation:`Auflagen und Führungsflächen lesen`,neverPrepared:`Noch nicht gelesen: Auflagenbetten und Führungsflächen, und was abzutragen ist.`,asks:`Was die Zahnärztin oder der Zahnarzt noch tun sollte`,nothingToReduce:`Es ist nichts mehr abzutragen.`,place:`Stelle`,reduce:`abtragen`,guidingPlane:`Führungsfläche`,rescan:`Ein neuer Scan`,rescanHow:`Ein neuer Scan desselben Zahnbogens ergibt eine Kopie des Falls; Marken und Stellen werden übertragen.`,newName:`Name des neuen Falls`,takeIn:`Aufnehmen`,writePapers:`Dokumente schreiben`,mayLeave:`Darf er hinaus?`,sent:`versandt`,notEntered:`Das Register enthält diesen Fall noch nicht.`,enterCase:`Fall eintragen`,nothingOpen:`Nichts steht im Weg.`,send:`Versand eintragen`,nameFirst:`Einträge werden unterschrieben: oben den Namen angeben.`,register:`Register`,newEntry:`Ein neuer Eintrag`,kind:`Art`,id:`Kennung`,enter:`Eintragen`,keepParticulars:`Behalten`,lab_name:`Name`,lab_address:`Anschrift`,lab_responsible:`wer unterschreibt`,lab_country:`Land`,lab_registration:`Registrierung`,lab_phone:`Telefon`,firstDay:`von`,lastDay:`bis`,frameworks:`Gerüste`,late:`verspätet`,turnaround:`Durchlauf, Median`,builds:`Bauten`,furnaceHours:`Ofenstunden`,furnaceFailed:`Ofenläufe nicht bestanden`,costEach:`Kosten je gutem Gerüst`,remakes:`Neuanfertigungen nach Ursache`,outside:`außerhalb`,byPlace:`Mittlere Abweichung nach Platz auf der Bauplattform`,lostPowder:`Pulver verloren`}},Ut=[`design`,`preparation`,`proof`,`build`,`furnace`,`inspection`,`clinic`,`acrylic`,`papers`],Wt=[`month`,`quality`,`feedstock`,`register`],Gt=[...Ut,...Wt],Kt=Qe(null),qt=Qe(null),Jt=Qe(new Map),V=Qe(``),Yt=Qe(!0),Xt=Qe(nn()[0]),Zt=Qe(nn()[1]),H=Qe(an()),Qt=Qe(localStorage.getItem(`author`)??``);function U(e){return Ht[H.value][e]}function $t(e){H.value=e,localStorage.setItem(`language`,e),document.documentElement.lang=e}function en(e){Qt.value=e,localStorage.setItem(`author`,e)}var tn=Qe(null);function nn(){let[e=``,t=``]=location.hash.replace(/^#\/?/,``).split(`/`).map(decodeURIComponent);return[e,Gt.find(e=>e===t)??`design`]}function rn(e,t=`design`){return`#/${encodeURIComponent(e)}${t===`design`?``:`/${t}`}`}function an(){let e=localStorage.getItem(`language`)??navigator.language.slice(0,2);return e in Ht?e:`en`}window.addEventListener(`hashchange`,()=>{let[e,t]=nn();e!==Xt.value&&(tn.value=null),Xt.value=e,Zt.value=t});async function on(){let{data:e,error:t}=await B.GET(`/api/cases`);e?Kt.value=e.cases:V.value=Lt(t)}async function sn(e){let{data:t,error:n}=await B.GET(`/api/cases/{name}`,{params:{path:{name:e}}});t&&Xt.value===e?qt.value=t:n&&(V.value=Lt(n))}async function cn(e){let{data:t,error:n}=await B.GET(`/api/cases/{name}/stages`,{params:{path:{name:e}}});t&&Xt.value===e?tn.value=t:n&&(V.value=Lt(n))}function ln(e){return e.data?(_n(e.data),V.value=``,!0):(V.value=Lt(e.error),!1)}async function un(e,t){let n=await It(new Request(e,{method:`POST`,body:t})),r=await n.json().catch(()=>void 0);return ln(n.ok?{data:r}:{error:r})}function dn(e){return e.data?(qt.value=e.data,V.value=``,!0):(V.value=Lt(e.error),!1)}function fn(e){return{author:Qt.value,reason:e,onto:qt.value?.revisions.at??null}}async function pn(e){ln(await B.POST(`/api/cases/{name}/jobs`,{params:{path:{name:e}},body:{task:`work out`}}))}async function mn(e){ln(await B.DELETE(`/api/jobs/{number}`,{params:{path:{number:e}}}))}function hn(e){return[...Jt.value.values()].find(t=>t.case===e&&gn(t))}function gn(e){return e.state===`waiting`||e.state===`at work`}function _n(e){let t=Jt.value.get(e.id);t&&!gn(t)&&gn(e)||(Jt.value=new Map(Jt.value).set(e.id,e))}var vn=Qe(null);async function yn(){let{data:e}=await B.GET(`/api/session`);e&&Sn(e)}async function bn(e,t){let{data:n,error:r}=await B.POST(`/api/session`,{body:{name:e,password:t}});n&&Sn(n),V.value=n?``:Lt(r)}async function xn(){await B.DELETE(`/api/session`),location.reload()}function Sn(e){let t=!vn.value||vn.value.accounts&&!vn.value.name;vn.value=e,Ft(e.secret??``,()=>location.reload()),e.accounts&&e.name&&(Qt.value=e.name),t&&(!e.accounts||e.name)&&e.role!==`dentist`&&wn()}var Cn=`claspwright-events`;function wn(){let e=new BroadcastChannel(Cn),t=!1,n=t=>{En(t),e.postMessage(t)},r=()=>(t=!0,Tn(n),new Promise(()=>{}));e.addEventListener(`message`,n=>{n.data.kind===`asking`?t&&e.postMessage({kind:`jobs`,jobs:[...Jt.value.values()]}):En(n.data)}),`locks`in navigator?navigator.locks.request(Cn,r):r(),e.postMessage({kind:`asking`})}function Tn(e){let t=new EventSource(`/api/events`);t.addEventListener(`open`,()=>e({kind:`open`})),t.addEventListener(`error`,()=>{e({kind:`lost`}),t.readyState===EventSource.CLOSED&&setTimeout(()=>(t.close(),Tn(e)),2e3)}),t.addEventListener(`jobs`,t=>{e({kind:`jobs`,jobs:JSON.parse(t.data).jobs})}),t.addEventListener(`job`,t=>{e({kind:`job`,job:JSON.parse(t.data)})})}function En(e){if(e.kind===`lost`)Yt.value=!1;else if(e.kind===`open`)!Yt.value&&Xt.value&&(sn(Xt.value),cn(Xt.value)),Yt.value=!0;else if(e.kind===`jobs`)Jt.value=new Map(e.jobs.map(e=>[e.id,e]));else if(e.kind===`job`){let t=e.job;_n(t),(t.state===`done`||t.state===`failed`)&&(t.error&&(V.value=t.error),Xt.value&&(sn(Xt.value),cn(Xt.value)),on())}}var Dn=Qe(null),On=Qe(null),kn=Qe(`turn`),An=Qe({}),jn=Qe(null),Mn=Qe(null),Nn=Qe(null),Pn=Qe(null),Fn=Qe([]),In=Qe(null),Ln=Qe(null),Rn=Qe(null);function zn(){Dn.value=null,On.value=null,kn.value=`turn`,jn.value=null,Pn.value=null,Nn.value=null,Fn.value=[],In.value=null,Ln.value=null,Rn.value=null}var Bn=Symbol.for(`pv`),Vn=0;Array.isArray;function W(t,n,r,i,a,o){n||={};var s,c,l=n;if(`ref`in l&&typeof t!=`function`)for(c in l={},n)c==`ref`?s=n[c]:l[c]=n[c];var u={type:t,props:l,key:r,ref:s,__k:null,__:null,__b:0,__e:null,__c:null,constructor:Bn,__v:--Vn,__i:-1,__u:0};return(a||o)&&(u.__source=a,u.__self=o),e.vnode&&e.vnode(u),u}var Hn={"major connector":16,"retentive arm":7,"reciprocal arm":7,"approach arm":6,"minor connector":7,rest:7};function Un({view:e,stamp:t}){let n=e.plan;if(!n)return null;let r=`/api/cases/${encodeURIComponent(Xt.value)}/view/plan.png?at=${t}`,i=e.spans.flatMap(e=>Ie(e.crest,e.missing.length).map((t,n)=>({code:e.missing[n],at:t})));return W(`figure`,{class:`plan`,children:[W(`svg`,{viewBox:`0 0 ${n.width_px} ${n.height_px}`,role:`group`,"aria-label":U(`plan`),children:[W(`image`,{href:r,width:n.width_px,height:n.height_px}),W(`g`,{class:`survey`,children:e.tracks.map((e,t)=>W(`path`,{d:Fe(n,e.points,e.closed)},t))}),W(`g`,{class:`metal`,children:e.components.filter(e=>e.kind in Hn).map(e=>W(`path`,{d:Fe(n,e.line),"stroke-width":Hn[e.kind],children:W(`title`,{children:e.id})},e.id))}),i.map(e=>W(Wn,{code:e.code,at:Pe(n,e.at),gone:!0},e.code)),e.teeth.map(e=>W(Wn,{code:e.code,at:Pe(n,e.centre)},e.code))]}),W(`figcaption`,{class:`small`,children:U(`planHow`)})]})}function Wn({code:e,at:t,gone:n=!1}){let r=On.value===e,i=qt.value?.retainers.some(t=>t.tooth===e)??!1,a=()=>On.value=r?null:e,o=[`code`,n&&`gone`,r&&`chosen`,i&&`carries`].filter(Boolean);return n?W(`g`,{class:o.join(` `),transform:`translate(${t[0]} ${t[1]})`,children:W(`text`,{children:[`(`,e,`)`]})}):W(`g`,{class:o.join(` `),transform:`translate(${t[0]} ${t[1]})`,role:`button`,tabIndex:0,"aria-pressed":r,"aria-label":`${e}${i?`, ${U(`clasp`)} / ${U(`rests`)}`:``}`,onClick:a,onKeyDown:e=>{(e.key===`Enter`||e.key===` `)&&(e.preventDefault(),a())},children:[W(`circle`,{r:21}),W(`text`,{children:e})]})}var Gn={de:{words:{buccal:`bukkale`,lingual:`linguale`,mesial:`mesiale`,distal:`distale`,palatal:`palatinale`,anterior:`vordere`,posterior:`hintere`,middle:`mittlere`,left:`linken`,right:`rechten`,"lingual bar":`Lingualbügel`,"lingual plate":`Lingualplatte`,"sublingual bar":`Sublingualbügel`,"cingulum bar":`Cingulumbügel`,"labial bar":`Labialbügel`,"palatal strap":`Palatinalband`,"anterior-posterior strap":`vorderes und hinteres Palatinalband`,"anterior and posterior palatal strap":`vorderes und hinteres Palatinalband`,"U-shaped palatal connector":`U-förmiger palatinaler Verbinder`,"full palatal plate":`volle Palatinalplatte`,lattice:`Gitter`,"fine mesh":`feines Netz`,"metal base with beads":`Metallbasis mit Perlen`,"metal base with posts":`Metallbasis mit Stiften`,circumferential:`zirkumferente Klammer`,"half-and-half":`Halb-und-halb-Klammer`,ring:`Ringklammer`,"back-action":`Back-Action-Klammer`,embrasure:`Bonwillklammer`,"I-bar":`I-Stabklammer`,"T-bar":`T-Stabklammer`,"modified T-bar":`abgewandelte T-Stabklammer`,"Y-bar":`Y-Stabklammer`,"wrought wire":`Drahtklammer`,"mesial occlusal":`mesial okklusal`,"distal occlusal":`distal okklusal`,"mesial extended occlusal":`mesial okklusal, verlängert`,"distal extended occlusal":`distal okklusal, verlängert`,"mesial embrasure":`mesial interdental`,"distal embrasure":`distal interdental`,"mesial incisal":`mesial inzisal`,"distal incisal":`distal inzisal`,cingulum:`Cingulum`,onlay:`Onlay`,mesiodistal:`mesiodistale`,buccolingual:`bukkolinguale`,"not worked out":`nicht ausgearbeitet`,"worked out":`ausgearbeitet`,stale:`veraltet`,"sheet has errors":`Blatt hat Fehler`,mandible:`Unterkiefer`,maxilla:`Oberkiefer`,framework:`Gerüst`,model:`Modell`,"blocked-out model":`ausgeblocktes Modell`,"opposing arch":`Gegenkiefer`,"bite record":`Bissregistrat`,blockout:`Ausblockung`,relief:`Entlastung`,"artificial teeth, as blocks":`Ersatzzähne, als Blöcke`,acrylic:`Kunststoff`,"as it would be":`wie es würde`,oblique:`schräg`,occlusal:`von okklusal`,"from the front":`von vorn`,"from the right":`von rechts`,"from the left":`von links`,"from behind":`von hinten`,"tissue side":`Gewebeseite`,Oblique:`Schräg`,Occlusal:`Von okklusal`,"From the front":`Von vorn`,"From the right":`Von rechts`,"From the left":`Von links`,"From behind":`Von hinten`,"Tissue side":`Gewebeseite`,alone:`allein`,arms:`Arme`,"on the model":`auf dem Modell`,survey:`Vermessung`,"acrylic of the bases":`Kunststoff der Basen`,"mass of the framework":`Masse des Gerüsts`,"volume of the framework":`Volumen des Gerüsts`,stop:`Halt`,look:`Prüfen`,note:`Hinweis`,height:`Höhe`,width:`Breite`,"distance from the margins":`Abstand von den Gingivarändern`,"seat of the rest":`Bett der Auflage`,"the arm begins":`der Arm beginnt`,"metal missing":`Metall fehlt`,"metal too much":`zu viel Metall`,"scan of the metal":`Scan des Metalls`,"other scan over the master":`anderer Scan über dem Arbeitsmodell`,"offset of the other scan":`Abstand des anderen Scans`,"gone in the other scan":`fehlt im anderen Scan`,"stands out in it":`steht dort vor`,"compare the scans":`Scans vergleichen`,coupon:`Probekörper`,"laying one scan on the other":`einen Scan auf den anderen legen`,"what differs":`was abweicht`,"stands out":`steht vor`,"is gone":`fehlt`,"tissue or an unnamed place":`Schleimhaut oder eine unbenannte Stelle`,deviation:`Abweichung`,"older revision":`ältere Fassung`,"newer revision":`neuere Fassung`,"newer against older":`neuere gegen ältere`,"older against newer":`ältere gegen neuere`,"outside the older one":`außerhalb der älteren`,"outside the newer one, with a minus":`außerhalb der neueren, mit Minus`,"solid of the older revision":`Körper der älteren Fassung`,"distances of the newer one":`Abstände der neueren`,"solid of the newer revision":`Körper der neueren Fassung`,"distances of the older one":`Abstände der älteren`,writing:`schreiben`,compare:`vergleichen`,"height of the arm over the survey line":`Höhe des Arms über dem Prothesenäquator`,"reach of the base, buccal":`Reichweite der Basis, bukkal`,"reach of the base, lingual":`Reichweite der Basis, lingual`,"back left":`hinten links`,"back right":`hinten rechts`,"front left":`vorn links`,"front right":`vorn rechts`,begins:`beginnt`,chain:`Kette der Einträge`,"what follows from it":`was daraus folgt`,written:`geschrieben`,checked:`geprüft`,restored:`zurückgespielt`,"entries.jsonl":`Einträge`,"persons.jsonl":`Gesundheitsdaten`,"files.jsonl":`Dateien`,"check the register":`Register prüfen`,"back up":`sichern`,export:`Tabellen schreiben`,restore:`zurückspielen`,read:`gelesen`,"read the certificate":`Zeugnis lesen`,"does not seat":`sitzt nicht`,"wrong design":`falscher Entwurf`,"Cobalt-28 chromium-6 molybdenum (UNS R30075)":`Kobalt-28 Chrom-6 Molybdän (UNS R30075)`,"MakeItFrom, R30075 (ASTM F75); ASTM F3213 has a similar composition [seen B]":`MakeItFrom, R30075 (ASTM F75); ASTM F3213 ähnlich zusammengesetzt [seen B]`,"size fraction 15 to 45, at most 10 to 63 um [common practice]":`Kornfraktion 15 bis 45, äußerstens 10 bis 63 um [übliche Praxis]`,"gas-atomised cobalt-chromium, 4.2 to 4.6 g/cm3 [memory]":`gasverdüstes Kobalt-Chrom, 4,2 bis 4,6 g/cm3 [memory]`,"ISO/ASTM 52907:2019, contents of a feedstock certificate [memory]":`ISO/ASTM 52907:2019, Inhalt eines Pulverzeugnisses [memory]`,waiting:`wartet`,"at work":`in Arbeit`,"taken up again":`wieder aufgenommen`,unit:`Einheit`,"reading the scan":`Scan lesen`,"master scan":`Scan des Arbeitsmodells`,"judging the scan":`Scan beurteilen`,"line of the arch":`Zahnbogenlinie`,closing:`schließen`,"distance field":`Abstandsfeld`,marks:`Marken`,"crown regions":`Kronenbereiche`,"gingival margins":`Gingivaränder`,"how sure the regions are":`Sicherheit der Bereiche`,"ridge crests":`Kieferkämme`,"opposing scan":`Scan des Gegenkiefers`,"closing the jaws":`Kiefer schließen`,"path of placement":`Einschubrichtung`,"maps of the cone":`Karten der Neigungen`,"survey lines":`Prothesenäquator`,"charting the teeth":`Zähne vermessen`,"laying components":`Teile legen`,"joining components":`Teile vereinigen`,"joining what stays":`Bleibendes vereinigen`,"cutting the tissue side":`Gewebeseite schneiden`,contouring:`Oberfläche bilden`,cleaning:`säubern`,checking:`prüfen`,rules:`Regeln`,report:`Bericht`,pictures:`Bilder`,"page for the dentist":`Seite für die Zahnmedizin`,"review page":`Prüfseite`,preview:`Vorschau`,proof:`Nachweis`,cells:`Zellen`,"finite elements":`finite Elemente`,orientation:`Lage`,supports:`Stützen`,slicing:`Schichten schneiden`,"layers are laid":`Schichten legen`,hatching:`Schraffur`,files:`Dateien`,nesting:`Anordnung`,drawing:`zeichnen`,entries:`Einträge`,inspected:`geprüft`,judged:`beurteilt`,seating:`aufsetzen`,rocking:`Schaukeln`,compared:`verglichen`,rescan:`neuer Scan`,preparation:`Präparation`,"guiding planes":`Führungsflächen`,"coarse registration":`grob ausrichten`,"fine registration":`fein ausrichten`,"mean deviation":`mittlere Abweichung`,"95th percentile of the deviation":`95. Perzentil der Abweichung`,"mean gap under the rest":`mittlerer Spalt unter der Auflage`,"depth to which it is wedged":`Tiefe der Verklemmung`,"play when pressed here":`Spiel bei Druck an dieser Stelle`,"no clasp":`keine Klammer`,"arms as laid, before finishing":`Arme wie gelegt, vor dem Ausarbeiten`,"arms as made and finished":`Arme wie gefertigt und ausgearbeitet`,"common practice, no source":`übliche Praxis, ohne Quelle`,"design target of this project [own]":`Ziel dieses Projekts [own]`,none:`keine`},sentences:[[`Only {a} of the new scan lies on the old one: they do not show the same arch, or one of them is mirrored.`,`Nur {a} des neuen Scans liegen auf dem alten: sie zeigen nicht denselben Kiefer, oder einer ist gespiegelt.`],[`The new scan shows {a} of what the old one showed.`,`Der neue Scan zeigt {a} von dem, was der alte zeigte.`],[`Both scans show the same within {a} mm: nothing asked for the new one.`,`Beide Scans zeigen dasselbe auf {a} mm: nichts verlangte nach dem neuen.`],[`tooth {a}: up to {b} mm {c}, {d} mm2.`,`Zahn {a}: bis {b} mm {c}, {d} mm².`],[`tissue or an unnamed place: up to {b} mm {c}, {d} mm2.`,`Schleimhaut oder eine unbenannte Stelle: bis {b} mm {c}, {d} mm².`],[`Changed teeth: {a}; what was made on the old scan is stale there.`,`Veränderte Zähne: {a}; was auf dem alten Scan gemacht wurde, ist dort überholt.`],[`own choice: four robust deviations, at least 0.1 mm`,`eigene Festlegung: vier robuste Abweichungen, mindestens 0,1 mm`],[`Castigliano's theorem for a half-round that tapers evenly, by bending across its flat alone; statics of the wedge for the withdrawal force`,`Satz von Castigliano für ein gleichmäßig verjüngtes Halbrund, aus Biegung quer zur flachen Seite allein; Statik des Keils für die Abzugskraft`],[`A computed aid: it replaces neither a test nor the dentist's judgement.`,`Eine Rechenhilfe: sie ersetzt weder einen Versuch noch das Urteil des Zahnarztes.`],[`The lower border of the bar lies {a} mm under the margins, the floor of the mouth {b} mm.`,`Der untere Rand des Bügels liegt {a} mm unter den Gingivarändern, der Mundboden {b} mm.`],[`The lower border of the bar lies {a} mm under the margins, the floor of the mouth {b} mm; it would press on movable tissue.`,`Der untere Rand des Bügels liegt {a} mm unter den Gingivarändern, der Mundboden {b} mm; er würde auf bewegliches Gewebe drücken.`],[`{a} of lot {b} is {c} %, outside {d} to {e} %.`,`{a} in Los {b} beträgt {c} %, außerhalb {d} bis {e} %.`],[`{a} of lot {b} is {c} um, outside {d} to {e} um.`,`{a} von Los {b} beträgt {c} um, außerhalb {d} bis {e} um.`],[`apparent density of lot {b} is {c} g/cm3, outside {d} to {e} g/cm3.`,`Die Schüttdichte von Los {b} beträgt {c} g/cm3, außerhalb {d} bis {e} g/cm3.`],[`The certificate of lot {a} shows no {b}; ask its maker.`,`Das Zeugnis von Los {a} zeigt kein {b}; den Hersteller fragen.`],[`The certificate of lot {a} does not show: {b}.`,`Das Zeugnis von Los {a} zeigt nicht: {b}.`],[`Lot {a} holds {b} % {c}, a hazardous element.`,`Los {a} enthält {b} % {c}, ein gefährliches Element.`],[`Lot {a} holds {b} % {c}: declare it, with warning.`,`Los {a} enthält {b} % {c}: angeben, mit Warnung.`],[`Raise or lower the bar's size.`,`Die Höhe des Bügels ändern.`],[`The floor of the mouth was probed {a} mm below the gingival margins.`,`Der Mundboden wurde {a} mm unter den Gingivarändern sondiert.`],[`The floor of the mouth was probed {a} mm below the gingival margins: too shallow for a lingual bar.`,`Der Mundboden wurde {a} mm unter den Gingivarändern sondiert: zu flach für einen Lingualbügel.`],[`A lingual plate is proposed where the sheet names no connector; it covers the margins and must be kept clean.`,`Wo das Blatt keinen Verbinder nennt, wird eine Lingualplatte vorgeschlagen; sie bedeckt die Gingivaränder und muss sauber gehalten werden.`],[`Confirm the depth and the plate with the dentist.`,`Tiefe und Platte mit der Zahnärztin oder dem Zahnarzt abstimmen.`],[`A lingual bar just fits; confirm the depth with the dentist.`,`Ein Lingualbügel passt gerade; die Tiefe mit der Zahnärztin oder dem Zahnarzt abstimmen.`],[`The {a} is {b} mm high.`,`Der {a} ist {b} mm hoch.`],[`The {a} is {b} mm thick.`,`Der {a} ist {b} mm dick.`],[`The palatal connector is {a} mm thick.`,`Der palatinale Verbinder ist {a} mm dick.`],[`A thinner bar bends; ask for room, or choose another connector.`,`Ein dünnerer Bügel biegt sich; um Platz bitten oder einen anderen Verbinder wählen.`],[`Thicken it, or widen it and accept more flexure.`,`Verdicken, oder verbreitern und mehr Biegung hinnehmen.`],[`The upper border of the bar keeps {a} mm from the margin of {b}.`,`Der obere Rand des Bügels hält {a} mm Abstand vom Gingivarand von {b}.`],[`Lower the bar if the floor of the mouth allows it; else a lingual plate is due.`,`Den Bügel tiefer legen, wenn der Mundboden es erlaubt; sonst ist eine Lingualplatte nötig.`],[`Lower the bar if the vestibule allows it, or choose another connector.`,`Den Bügel tiefer legen, wenn das Vestibulum es erlaubt, oder einen anderen Verbinder wählen.`],[`The apron of the lingual plate is {a} mm thick.`,`Die Schürze der Lingualplatte ist {a} mm dick.`],[`Thicken it: a thin apron bends and breaks at the contacts.`,`Verdicken: eine dünne Schürze biegt sich und bricht an den Kontakten.`],[`The tissue stop of {a} measures {b} mm.`,`Der Gewebestopp von {a} misst {b} mm.`],[`Enlarge it, so that it does not sink into the model.`,`Vergrößern, damit er nicht in das Modell einsinkt.`],[`The base over {a} ends free without a tissue stop: it would bend under packing.`,`Die Basis über {a} endet frei ohne Gewebestopp: sie würde sich beim Pressen biegen.`],[`Add one at the end of the lattice.`,`Am Ende des Gitters einen anlegen.`],[`The wall of {a} stands {b} mm over the metal before it.`,`Die Stufe von {a} steht {b} mm über dem Metall davor.`],[`Raise it, or the acrylic runs out thin there and chips.`,`Höher legen, sonst läuft der Kunststoff dort dünn aus und bricht.`],[`{a} lies {b} mm from the edge of the relief under the base.`,`{a} liegt {b} mm vom Rand der Unterlegung unter der Basis.`],[`Move it, or the metal is weakest where both meet.`,`Versetzen, sonst ist das Metall dort am schwächsten, wo beide zusammentreffen.`],[`No finish line for the base over {a}: the acrylic would run out thin on the metal.`,`Kein Abschlussrand für die Basis über {a}: der Kunststoff liefe dünn auf dem Metall aus.`],[`Add one, or cut it in the wax.`,`Einen anlegen oder im Wachs schneiden.`],[`The lattice over {a} covers {b} % of the length of its ridge.`,`Das Gitter über {a} bedeckt {b} % der Länge seines Kieferkamms.`],[`Lengthen the lattice; check that the scan shows the ridge to its end.`,`Das Gitter verlängern; prüfen, ob der Scan den Kieferkamm bis zum Ende zeigt.`],[`Relief of the ridge under a lattice: {a} mm.`,`Entlastung des Kieferkamms unter einem Gitter: {a} mm.`],[`Thickness of the struts of a lattice: {a} mm.`,`Dicke der Stege eines Gitters: {a} mm.`],[`Width of the struts of a lattice: {a} mm.`,`Breite der Stege eines Gitters: {a} mm.`],[`Change the base in the sheet; the acrylic needs metal and room.`,`Die Basis im Blatt ändern; der Kunststoff braucht Metall und Platz.`],[`The bite record lies on both arches: {a} % of it within {b} mm, median {c} mm.`,`Das Bissregistrat liegt auf beiden Zahnbögen: {a} % davon innerhalb von {b} mm, Median {c} mm.`],[`Back teeth meet on both sides ({a}); they hold the record.`,`Seitenzähne treffen auf beiden Seiten aufeinander ({a}); sie halten das Registrat.`],[`Tooth {a} enters the opposing teeth by {b} mm at the recorded vertical dimension: the scans are not in bite relation, or were bitten through.`,`Zahn {a} dringt bei der registrierten Vertikaldimension {b} mm in die Gegenbezahnung ein: die Scans stehen nicht in Bissrelation, oder das Registrat ist durchgebissen.`],[`There is no bite record: the opposing arch is taken to be in bite relation as it was scanned.`,`Es gibt kein Bissregistrat: der Gegenkiefer gilt als in Bissrelation gescannt.`],[`See on the review page that the teeth meet.`,`Auf der Prüfseite nachsehen, ob die Zähne aufeinandertreffen.`],[`There is no bite record, and the opposing arch stays at least {a} mm away from the master.`,`Es gibt kein Bissregistrat, und der Gegenkiefer bleibt mindestens {a} mm vom Arbeitsmodell entfernt.`],[`Export both in bite relation, or add the bite record.`,`Beide in Bissrelation exportieren oder das Bissregistrat hinzufügen.`],[`The scans were not filed in bite relation; the opposing arch was moved into it through the bite record, which fits the master arch to {a} um and the opposing arch to {b} um.`,`Die Scans lagen nicht in Bissrelation; der Gegenkiefer wurde über das Bissregistrat hineinbewegt, das zum Arbeitsmodell auf {a} um und zum Gegenkiefer auf {b} um passt.`],[`See that the teeth meet.`,`Nachsehen, ob die Zähne aufeinandertreffen.`],[`Only {a} % of the bite record lies within {b} mm of the arches, so they are not in bite relation.`,`Nur {a} % des Bissregistrats liegen innerhalb von {b} mm an den Zahnbögen; sie stehen also nicht in Bissrelation.`],[`No opposing arch was given: whether the metal clears the bite is not known.`,`Kein Gegenkiefer angegeben: ob das Metall den Biss freilässt, ist unbekannt.`],[`Send the opposing scan and a bite record, or try the framework in.`,`Scan des Gegenkiefers und Bissregistrat senden, oder das Gerüst einprobieren.`],[`{a} support contacts lie on faces that must fit.`,`{a} Stützkontakte liegen auf Flächen, die passen müssen.`],[`Choose another orientation, or grind and check these places on the model.`,`Eine andere Lage wählen, oder diese Stellen beschleifen und am Modell prüfen.`],[`{a} supports stand on the part itself, because no way leads down to the platform.`,`{a} Stützen stehen auf dem Teil selbst, weil kein Weg zur Bauplattform führt.`],[`In layer {a} an area of {b} mm2 begins over loose powder.`,`In Schicht {a} beginnt eine Fläche von {b} mm2 über losem Pulver.`],[`Turn the part or add a support.`,`Das Teil drehen oder eine Stütze hinzufügen.`],[`No room was found for the tag of {a}.`,`Für die Marke von {a} war kein Platz.`],[`Mark the part by hand when it leaves the platform, so that no two patients are mixed up.`,`Das Teil von Hand kennzeichnen, wenn es die Bauplattform verlässt, damit keine zwei Patienten verwechselt werden.`],[`The distance {a} is {b} mm, {c} mm are asked for.`,`Der Abstand {a} beträgt {b} mm, {c} mm sind verlangt.`],[`{a} runs {b} mm from a gingival margin.`,`{a} läuft {b} mm von einem Gingivarand entfernt.`],[`Lay the approach arm lower, or choose a circumferential clasp.`,`Den Zuführungsarm tiefer legen, oder eine zirkumferente Klammer wählen.`],[`{a} is {b} mm long from the beginning of its taper to its tip.`,`{a} ist vom Beginn seiner Verjüngung bis zur Spitze {b} mm lang.`],[`{a} is {b} mm long from {c} to its tip.`,`{a} ist von {c} bis zur Spitze {b} mm lang.`],[`A short arm is stiff: see its stress; thin it, take less undercut, or a longer way.`,`Ein kurzer Arm ist steif: auf die Spannung achten; dünner machen, weniger Unterschnitt oder einen längeren Weg nehmen.`],[`The framework has {a} clasp.`,`Das Gerüst hat {a} Klammer.`],[`The framework has {a} clasps.`,`Das Gerüst hat {a} Klammern.`],[`The framework has no clasp: nothing holds it.`,`Das Gerüst hat keine Klammer: nichts hält es.`],[`Tilt the path, or have a tooth shaped.`,`Die Einschubrichtung neigen oder einen Zahn beschleifen lassen.`],[`Fewer hold badly, more load the teeth and are hard to seat; ask the prescriber.`,`Weniger halten schlecht, mehr belasten die Zähne und lassen sich schwer aufsetzen; die verordnende Person fragen.`],[`Tooth {a} is held over {b} degrees of its circumference, at {c} kinds of contact.`,`Zahn {a} ist über {b} Grad seines Umfangs gefasst, mit {c} Arten von Kontakt.`],[`The tooth could move out of the retainer; lengthen an arm or add a plate or arm.`,`Der Zahn könnte aus dem Halteelement wandern; einen Arm verlängern, oder Platte oder Arm hinzufügen.`],[`{a} has a fatigue factor of {b} on a tooth that gives way and {c} on one that does not, after {d} seatings; {e} after 1e7, with a fatigue strength of {f} MPa ({g}); the direction of building may change its life several times over.`,`{a} hat nach {d} Aufsetzvorgängen einen Ermüdungsfaktor von {b} an einem nachgebenden und {c} an einem starren Zahn; {e} nach 1e7, bei einer Dauerfestigkeit von {f} MPa ({g}); die Baurichtung kann die Lebensdauer um ein Mehrfaches ändern.`],[`Lengthen or thin the arm, or take less undercut.`,`Den Arm verlängern oder dünner machen, oder weniger Unterschnitt nehmen.`],[`{a} presses with {b} N ({c} to {d} N over the range of the modulus; {e} N on a tooth that gives way; {f} N as a straight beam) and comes off at {g} N over its crown with friction {h}; {i} N by the slope of {j} degrees where it rests.`,`{a} drückt mit {b} N ({c} bis {d} N über die Spanne des Moduls; {e} N an einem nachgebenden Zahn; {f} N als gerader Balken) und löst sich bei {g} N über seine Krone mit Reibung {h}; {i} N nach der Neigung von {j} Grad, wo sie liegt.`],[`Thicken or shorten a weak arm; thin or lengthen one that loads its tooth.`,`Einen schwachen Arm verdicken oder kürzen; einen, der seinen Zahn belastet, dünner machen oder verlängern.`],[`{a} is {b} times as thick on average as {c}.`,`{a} ist im Mittel {b}-mal so dick wie {c}.`],[`Thicken the reciprocal arm or thin the retentive one.`,`Den Widerlagerarm verdicken oder den Haltearm dünner machen.`],[`Nothing stands against {a}: the tooth would be moved at each insertion.`,`Nichts steht gegen {a}: der Zahn würde bei jedem Einsetzen bewegt.`],[`Add a reciprocal arm or a proximal plate.`,`Einen Widerlagerarm oder eine Approximalplatte hinzufügen.`],[`{a} % of {b}, from its tip, lies below the survey line.`,`{a} % von {b}, von der Spitze an, liegen unter dem Prothesenäquator.`],[`Lay the arm higher, or ask the dentist to lower the survey line.`,`Den Arm höher legen, oder die Zahnärztin oder den Zahnarzt bitten, den Prothesenäquator zu senken.`],[`{a} reaches {b} MPa on a tooth that gives way {c} um a newton and {d} MPa on one that does not, at {e} mm from its root ({f} MPa as a straight beam); proof stress {g} MPa published, {h} MPa at least ({i}), which {j} mm of undercut would reach.`,`{a} erreicht {b} MPa an einem Zahn, der {c} um je Newton nachgibt, und {d} MPa an einem starren, {e} mm von der Wurzel ({f} MPa als gerader Balken); Dehngrenze {g} MPa veröffentlicht, mindestens {h} MPa ({i}), was {j} mm Unterschnitt erreichen würden.`],[`Thin or lengthen the arm, take less undercut or a bar or wire clasp, or prove the alloy's proof stress on the laboratory's own coupons.`,`Den Arm dünner machen oder verlängern, weniger Unterschnitt oder eine Stab- oder Drahtklammer nehmen, oder die Dehngrenze der Legierung an eigenen Proben nachweisen.`],[`The tip of {a} keeps {b} mm from the gingival margin.`,`Die Spitze von {a} hält {b} mm Abstand vom Gingivarand.`],[`Move the tip towards the occlusal; it would irritate the margin.`,`Die Spitze nach okklusal rücken; sie würde den Gingivarand reizen.`],[`The tip of {a} lies in {b} mm of undercut, prescribed {c} mm.`,`Die Spitze von {a} liegt in {b} mm Unterschnitt, vorgegeben {c} mm.`],[`Move the tip, tilt the path, or prescribe what the tooth offers.`,`Die Spitze verschieben, die Einschubrichtung neigen, oder vorgeben, was der Zahn bietet.`],[`{a} is prescribed {b} mm of undercut.`,`Für {a} sind {b} mm Unterschnitt vorgegeben.`],[`Clasp another tooth rather than deepen the undercut; {a} mm suits this alloy.`,`Lieber einen anderen Zahn klammern als den Unterschnitt vertiefen; {a} mm passen zu dieser Legierung.`],[`Clasp another tooth rather than deepen the undercut; {a} mm suits a wire.`,`Lieber einen anderen Zahn klammern als den Unterschnitt vertiefen; {a} mm passen zu einem Draht.`],[`{a}: {b} on {c}.`,`{a}: {b} an {c}.`],[`Change the clasp's width or thickness in the sheet.`,`Breite oder Dicke der Klammer im Blatt ändern.`],[`The sides give {a} mm against each other under 10 N apart.`,`Die Seiten geben unter 10 N auseinander {a} mm gegeneinander nach.`],[`The sides give {a} mm against each other under 10 N up on one and down on the other.`,`Die Seiten geben unter 10 N, auf der einen hinauf und der anderen hinab, {a} mm gegeneinander nach.`],[`The sides give {a} mm against each other under 10 N {b} ({c}).`,`Die Seiten geben unter 10 N {b} {a} mm gegeneinander nach ({c}).`],[`Thicken or widen the major connector.`,`Den großen Verbinder verdicken oder verbreitern.`],[`A bite of {a} N on {b} tips the denture on its rests.`,`Ein Biss von {a} N auf {b} kippt die Prothese auf ihren Auflagen.`],[`Set the tooth nearer to the line between the rests, or add a rest.`,`Den Zahn näher an die Linie zwischen den Auflagen stellen, oder eine Auflage hinzufügen.`],[`A bite of {a} N on {b} goes to the ridge by {c} % ({d} to {e} %), and the base sinks {f} mm ({g} to {h} mm over published stiffness of mucosa).`,`Ein Biss von {a} N auf {b} geht zu {c} % ({d} bis {e} %) auf den Kieferkamm, und die Basis sinkt {f} mm ein ({g} bis {h} mm über die veröffentlichte Steifigkeit der Schleimhaut).`],[`Cover more of the ridge, and reline when it settles.`,`Mehr vom Kieferkamm bedecken, und unterfüttern, wenn sie sich setzt.`],[`The denture lifts most easily at ({a}) mm, at {b} N, about {c} and {d}; {e} gives way first ({f}; rests push, clasps pull to their limit, guiding planes and saliva left out).`,`Die Prothese hebt sich am leichtesten bei ({a}) mm, bei {b} N, um {c} und {d}; zuerst gibt {e} nach ({f}; Auflagen drücken, Klammern ziehen bis an ihre Grenze, Führungsflächen und Speichel bleiben außer Betracht).`],[`The denture lifts most easily at ({a}) mm, at {b} N, about {c} and {d}; {e} gives way first ({f}; rests push, clasps pull to their limit, guiding planes and saliva left out); the indirect retainers add {g} N.`,`Die Prothese hebt sich am leichtesten bei ({a}) mm, bei {b} N, um {c} und {d}; zuerst gibt {e} nach ({f}; Auflagen drücken, Klammern ziehen bis an ihre Grenze, Führungsflächen und Speichel bleiben außer Betracht); die indirekten Halter bringen {g} N.`],[`Move an indirect retainer farther from the line, or add a clasp or rest beyond it; guiding planes add to it.`,`Einen indirekten Halter weiter von der Linie weg setzen, oder jenseits eine Klammer oder Auflage hinzufügen; Führungsflächen kommen hinzu.`],[`The clasps together ({a}) hold {b} N along the path.`,`Die Klammern zusammen ({a}) halten {b} N entlang der Einschubrichtung.`],[`Guiding planes and friction add to it; adapt the arms or the number of clasps.`,`Führungsflächen und Reibung kommen hinzu; die Arme oder die Zahl der Klammern anpassen.`],[`The rest on {a} stands {b} mm in front of the fulcrum line, of {c} mm that the teeth allow.`,`Die Auflage auf {a} steht {b} mm vor der Kipplinie, von {c} mm, die die Zähne erlauben.`],[`Place the indirect retainer on a tooth farther in front, if a seat can be had there.`,`Den indirekten Halter auf einen Zahn weiter vorn setzen, wenn dort ein Bett zu haben ist.`],[`No indirect retainer: {a}.`,`Kein indirekter Halter: {a}.`],[`The base may lift off the ridge; ask the prescriber for a rest seat in front.`,`Die Basis kann sich vom Kieferkamm heben; um ein Auflagenbett weiter vorn bitten.`],[`Drawn along the path, rigid metal meets the scan by {a} mm at most; retentive arms spring over {b} mm.`,`Entlang der Einschubrichtung gezogen trifft starres Metall den Scan um höchstens {a} mm; Haltearme federn über {b} mm.`],[`It would not seat there: block the place out, or move the part.`,`Es würde dort nicht sitzen: die Stelle ausblocken oder das Teil verlegen.`],[`{a}, by the areas {b}.`,`{a}, nach den Lücken {b}.`],[`The thinnest wall measures {a} mm (all but {b} mm2 are thicker).`,`Die dünnste Wand misst {a} mm (alles bis auf {b} mm2 ist dicker).`],[`No walls face each other across less than {a} mm as built.`,`Keine Wände stehen sich im gebauten Teil näher als {a} mm gegenüber.`],[`Walls that face each other keep {a} mm as built ({b} um are built on for finishing).`,`Wände, die sich gegenüberstehen, halten im gebauten Teil {a} mm Abstand ({b} um sind für die Nacharbeit aufgetragen).`],[`Walls that face each other meet as built, by {a} mm ({b} um are built on for finishing).`,`Wände, die sich gegenüberstehen, treffen im gebauten Teil um {a} mm ineinander ({b} um sind für die Nacharbeit aufgetragen).`],[`Widen the groove or fill it: powder stays in it and nothing polishes it.`,`Die Rille weiten oder füllen: Pulver bleibt darin, und nichts poliert sie.`],[`Thicken the part there; thinner walls may not print or may break.`,`Das Teil dort verdicken; dünnere Wände lassen sich vielleicht nicht drucken oder brechen.`],[`{a} and {b} leave {c} mm between them.`,`{a} und {b} lassen {c} mm zwischen sich.`],[`Move a rest or join the two connectors; food stays in a narrow gap.`,`Eine Auflage verlegen oder beide Verbinder vereinigen; in einem engen Spalt bleiben Speisen hängen.`],[`{a}: width of minor connectors {b} mm.`,`{a}: Breite kleiner Verbinder {b} mm.`],[`{a}: thickness of minor connectors {b} mm.`,`{a}: Dicke kleiner Verbinder {b} mm.`],[`Thicken it: printed frameworks broke at minor connectors in tests.`,`Verdicken: gedruckte Gerüste brachen in Versuchen an kleinen Verbindern.`],[`The metal keeps {a} mm from the opposing teeth.`,`Das Metall hält {a} mm Abstand von der Gegenbezahnung.`],[`Ask the dentist for a deeper seat or more room, or thin the part there.`,`Um ein tieferes Bett oder mehr Platz bitten, oder das Teil dort dünner machen.`],[`The {a} face of {b} guides over {c} mm, for {d} mm wanted: {e}; ask the dentist to prepare a guiding plane.`,`Die {a} Fläche von {b} führt über {c} mm, gewünscht sind {d} mm: {e}; um das Anlegen einer Führungsfläche bitten.`],[`The {a} face of {b} has {c} mm of undercut that holds across the occlusal plane too, for {d} mm wanted: {e}.`,`Die {a} Fläche von {b} hat {c} mm Unterschnitt, der auch quer zur Okklusionsebene hält, gewünscht sind {d} mm: {e}.`],[`The path of placement stands across the occlusal plane: no tilt up to {a} degrees serves the clasps, guiding faces and tissue enough better to be worth it.`,`Die Einschubrichtung steht senkrecht zur Okklusionsebene: keine Neigung bis {a} Grad dient Klammern, Führungsflächen und Gewebe so viel besser, dass sie sich lohnt.`],[`The path of placement is tilted by {a} degrees: anterior {b}, right lateral {c}.`,`Die Einschubrichtung ist um {a} Grad geneigt: nach vorn {b}, nach rechts {c}.`],[`Such a tilt is hard for the patient to follow; prefer recontouring, or tilt less.`,`Einer solchen Neigung folgt man schwer; lieber beschleifen oder weniger neigen.`],[`Pulled straight off the occlusal plane, the tip of {a} meets {b} mm of tooth.`,`Gerade von der Okklusionsebene abgezogen trifft die Spitze von {a} auf {b} mm Zahn.`],[`Pulled straight off the occlusal plane, the tip of {a} meets no tooth.`,`Gerade von der Okklusionsebene abgezogen trifft die Spitze von {a} auf keinen Zahn.`],[`It only holds along the tilted path; tilt less.`,`Sie hält nur entlang der geneigten Richtung; weniger neigen.`],[`For {a} N on the way of {b}: {c}.`,`Für {a} N auf dem Weg von {b}: {c}.`],[`{a} has a Goodman factor of {b} after {c} seatings on a tooth that does not give way.`,`{a} hat nach {c} Aufsetzvorgängen an einem starren Zahn einen Goodman-Faktor von {b}.`],[`Published clasps sprung by 0.5 mm lasted, at {a} seatings a day: {b} ({c}); bars of the alloy rank the directions the other way: {d} ({e}).`,`Veröffentlichte Klammern, um 0,5 mm gefedert, hielten bei {a} Aufsetzvorgängen am Tag: {b} ({c}); Stäbe der Legierung ordnen die Richtungen umgekehrt: {d} ({e}).`],[`Agree on the direction of building with whoever prints.`,`Die Baurichtung mit der druckenden Stelle vereinbaren.`],[`{a} loads its tooth sideways with {b} N as it passes its bulge.`,`{a} belastet seinen Zahn beim Überfahren der Wölbung seitlich mit {b} N.`],[`Reciprocate the arm along its whole way, or thin it.`,`Dem Arm auf seinem ganzen Weg ein Widerlager geben, oder ihn dünner machen.`],[`{a}, cut from the solid and finished, reaches {b} MPa on a tooth that gives way and {c} MPa on one that does not, {d} mm beyond its joint; {e} to {f} MPa over all ranges; proof stress {g} MPa published, {h} MPa at least ({i}).`,`{a}, aus dem Körper geschnitten und ausgearbeitet, erreicht {b} MPa an einem nachgebenden und {c} MPa an einem starren Zahn, {d} mm jenseits der Ansatzstelle; {e} bis {f} MPa über alle Spannen; Dehngrenze {g} MPa veröffentlicht, mindestens {h} MPa ({i}).`],[`Thin or lengthen the arm, take less undercut, or another form of clasp.`,`Den Arm dünner machen oder verlängern, weniger Unterschnitt oder eine andere Klammerform nehmen.`],[`{a} comes off at {b} N over the real crown, between {c} and {d} N over all ranges together; what finishing takes off decides most; before finishing {e} N; it goes in at {f} N.`,`{a} löst sich über die wirkliche Krone bei {b} N, zwischen {c} und {d} N über alle Spannen zusammen; am meisten entscheidet, was das Ausarbeiten abträgt; vor dem Ausarbeiten {e} N; aufgesetzt wird sie mit {f} N.`],[`{a} comes off at {b} N over the real crown, between {c} and {d} N over all ranges together; {e} decides most; before finishing {f} N; it goes in at {g} N.`,`{a} löst sich über die wirkliche Krone bei {b} N, zwischen {c} und {d} N über alle Spannen zusammen; am meisten entscheidet {e}; vor dem Ausarbeiten {f} N; aufgesetzt wird sie mit {g} N.`],[`Thicken or shorten a weak arm, or lead its tip to a steeper place of the undercut.`,`Einen schwachen Arm verdicken oder kürzen, oder seine Spitze an eine steilere Stelle des Unterschnitts führen.`],[`Proposed for {a}: {b} on the {c} face, its tip in {d} mm.`,`Vorgeschlagen für {a}: {b} auf der {c} Fläche, Spitze in {d} mm.`],[`Proposed for {a}: {b} on the {c} face, its tip in {d} mm; deeper undercut lies out of its reach.`,`Vorgeschlagen für {a}: {b} auf der {c} Fläche, Spitze in {d} mm; tieferer Unterschnitt liegt außer Reichweite.`],[`Proposed for {a}: a base between teeth over {b}: {c} with relief.`,`Vorgeschlagen für {a}: eine Basis zwischen Zähnen über {b}: {c} mit Entlastung.`],[`Proposed for {a}: a base that ends free over {b}: {c} with relief.`,`Vorgeschlagen für {a}: eine frei endende Basis über {b}: {c} mit Entlastung.`],[`Proposed for {a}: lower jaw: {b}.`,`Vorgeschlagen für {a}: Unterkiefer: {b}.`],[`Proposed for {a}: upper jaw: {b}.`,`Vorgeschlagen für {a}: Oberkiefer: {b}.`],[`Proposed for {a}: upper jaw with long, free-end, anterior or one-sided spans: {b}.`,`Vorgeschlagen für {a}: Oberkiefer mit langen, freien, vorderen oder einseitigen Lücken: {b}.`],[`Proposed for {a}: abutment of a base that ends free: rest away from the base, proximal plate towards it, and a bar clasp that lets go when the base sinks.`,`Vorgeschlagen für {a}: Pfeiler einer frei endenden Basis: Auflage von der Basis weg, Approximalplatte zu ihr hin und eine Stabklammer, die loslässt, wenn die Basis einsinkt.`],[`Proposed for {a}: abutment of a bounded span: rest and proximal plate beside the span, circumferential clasp.`,`Vorgeschlagen für {a}: Pfeiler einer begrenzten Lücke: Auflage und Approximalplatte neben der Lücke, zirkumferente Klammer.`],[`Proposed for {a}: indirect retainer on the canine's cingulum: a rest as far in front of the fulcrum line as practical.`,`Vorgeschlagen für {a}: indirekter Halter auf dem Cingulum des Eckzahns: eine Auflage so weit vor der Kipplinie wie möglich.`],[`Proposed for {a}: indirect retainer: a rest as far in front of the fulcrum line as practical, against lifting of the free-end base.`,`Vorgeschlagen für {a}: indirekter Halter: eine Auflage so weit vor der Kipplinie wie möglich, gegen das Abheben der Freiendbasis.`],[`Proposed for {a}: no clasp: every arm would be so short and stiff that it is bent for good.`,`Vorgeschlagen für {a}: keine Klammer: jeder Arm wäre so kurz und steif, dass er sich bleibend verbiegt.`],[`Proposed for {a}: no clasp: the survey shows {b} mm at most.`,`Vorgeschlagen für {a}: keine Klammer: die Vermessung zeigt höchstens {b} mm.`],[`Proposed for {a}: {b}.`,`Vorgeschlagen für {a}: {b}.`],[`Second choice for {a}: a ring clasp would find {b} mm at the mesio-lingual corner of this lone molar, where the {c} takes {d} mm; it needs a distal occlusal rest and a strut, and covers more of the tooth.`,`Zweite Wahl für {a}: eine Ringklammer fände {b} mm an der mesiolingualen Ecke dieses allein stehenden Molaren, wo die {c} {d} mm nutzt; sie braucht eine distale okklusale Auflage und eine Strebe und bedeckt mehr vom Zahn.`],[`Second choice for {a}: {b}.`,`Zweite Wahl für {a}: {b}.`],[`To ask for it: {a}.`,`Um sie zu verlangen: {a}.`],[`Tooth {a} offers no undercut that a clasp can reach, so it gets none.`,`Zahn {a} bietet keinen Unterschnitt, den eine Klammer erreicht; er bekommt keine.`],[`Tilt the path, ask the dentist to recontour the tooth, or clasp another.`,`Die Einschubrichtung neigen, um Beschleifen des Zahns bitten, oder einen anderen klammern.`],[`Tooth {a} offers only {b} mm; the clasp is set to {c} mm and holds less.`,`Zahn {a} bietet nur {b} mm; die Klammer wird auf {c} mm gesetzt und hält weniger.`],[`Ask whether the tooth may be recontoured, or tilt the path.`,`Fragen, ob der Zahn beschliffen werden darf, oder die Einschubrichtung neigen.`],[`Every arm on tooth {a} would be so short and stiff that it is bent for good when the framework is seated, so the tooth gets no clasp; others hold on its side.`,`Jeder Arm auf Zahn {a} wäre so kurz und steif, dass er sich beim Aufsetzen bleibend verbiegt; der Zahn bekommt keine Klammer, andere halten auf seiner Seite.`],[`The opposing teeth leave no room for the arms of a clasp on {a}: at the worst place {b} % of their thickness would be left, so it gets none.`,`Die Gegenbezahnung lässt keinen Platz für die Arme einer Klammer auf {a}: an der schlimmsten Stelle blieben {b} % ihrer Dicke; er bekommt keine.`],[`The retentive arm on {a} lies on the tongue or palate side, since the buccal face offers less; a buccal arm reciprocates it.`,`Der Haltearm auf {a} liegt auf der Zungen- oder Gaumenseite, da die bukkale Fläche weniger bietet; ein bukkaler Arm ist sein Widerlager.`],[`No clasp on the patient's {a} side: {b}.`,`Keine Klammer auf der {a} Seite der Patientin oder des Patienten: {b}.`],[`The denture is held on the other side only; ask the prescriber whether that is meant.`,`Die Prothese hält nur auf der anderen Seite; fragen, ob das gemeint ist.`],[`No tooth on the patient's {a} side holds a sound clasp as it stands.`,`Kein Zahn auf der {a} Seite trägt, so wie er ist, eine taugliche Klammer.`],[`The least that would do: ask the dentist to {a}; then scan anew.`,`Das Wenigste, das genügte: die Zahnärztin oder den Zahnarzt bitten: {a}; dann neu scannen.`],[`No stronger tooth can carry a clasp, so {a} gets one; ask the prescriber whether that tooth can bear it.`,`Kein stärkerer Zahn kann eine Klammer tragen; {a} bekommt eine; fragen, ob dieser Zahn sie verträgt.`],[`No indirect retainer can be proposed: {a}.`,`Es lässt sich kein indirekter Halter vorschlagen: {a}.`],[`The free-end base may lift; ask the prescriber for a rest seat in front, or accept it.`,`Die Freiendbasis kann abheben; um ein Auflagenbett weiter vorn bitten, oder es hinnehmen.`],[`The {a} wall of tooth {b} gives no course for a reciprocal arm between the survey line and the edge of the occlusal surface: {c} degrees of it, so the arm is left {d}.`,`Die {a} Wand von Zahn {b} bietet zwischen Prothesenäquator und Rand der Kaufläche keinen Weg für einen Widerlagerarm: {c} Grad davon; der Arm bleibt {d}.`],[`The {a} side of tooth {b} offers only {c} mm of undercut within reach of the arm, {d} mm clear of the gingival margin.`,`Die {a} Seite von Zahn {b} bietet in Reichweite des Arms nur {c} mm Unterschnitt, {d} mm frei vom Gingivarand.`],[`revision {a} was not worked out, or is no longer kept`,`Fassung {a} wurde nicht berechnet oder ist nicht mehr aufgehoben`],[`The prescribed course of {a} bends both ways: it has an inflection.`,`Der vorgegebene Verlauf von {a} biegt sich nach beiden Seiten: er hat einen Wendepunkt.`],[`Take one of its places out, or bring them nearer to one even curve.`,`Eine seiner Stellen herausnehmen oder sie näher an eine gleichmäßige Kurve bringen.`],[`On its prescribed course {a} comes within {b} mm of the gingival margin.`,`Auf seinem vorgegebenen Verlauf kommt {a} dem Gingivarand auf {b} mm nahe.`],[`Lead it higher there; it would irritate the margin.`,`Dort höher führen; er würde den Gingivarand reizen.`],[`The border of tooth {a} runs over its crown on the {b} side, over {c} degrees, and not along the gingival margin.`,`Die Grenze von Zahn {a} läuft auf der {b} Seite über {c} Grad über die Krone und nicht entlang des Gingivarands.`],[`The wire on {a} is set to {b} mm of undercut in place of {c} mm: {d}.`,`Der Draht auf {a} ist auf {b} mm statt {c} mm Unterschnitt gesetzt: {d}.`],[`Between the ridge and {a} there are {b} mm for {c}; over lattice and acrylic {d} mm are left for the tooth.`,`Zwischen Kieferkamm und {a} sind {b} mm für {c}; über Gitter und Kunststoff bleiben {d} mm für den Zahn.`],[`The ridge for {a} is {b} % as long as these teeth are on average.`,`Der Kieferkamm für {a} ist {b} % so lang, wie diese Zähne im Mittel sind.`],[`Ask the prescriber for {a}.`,`Die verordnende Person bitten um: {a}.`],[`The framework stands on {a} rests.`,`Das Gerüst steht auf {a} Auflagen.`],[`The framework stands on {a} rests; it may rock.`,`Das Gerüst steht auf {a} Auflagen; es kann schaukeln.`],[`Ask for another rest seat.`,`Um ein weiteres Auflagenbett bitten.`],[`The floor of the seat of {a} lies {b} mm under its ridge.`,`Der Boden des Betts von {a} liegt {b} mm unter seiner Randleiste.`],[`Ask the dentist to look: too shallow makes a thin rest, too deep costs tooth.`,`Um Nachschau bitten: zu flach gibt eine dünne Auflage, zu tief kostet Zahn.`],[`Tooth {a} has no prepared seat for {b}.`,`Zahn {a} hat kein präpariertes Bett für {b}.`],[`No prepared seat for {a} on the scan.`,`Kein präpariertes Bett für {a} auf dem Scan.`],[`Ask the dentist to prepare one and to rescan; the rest is laid on the tooth as it is.`,`Um Präparation und neuen Scan bitten; die Auflage liegt auf dem Zahn, wie er ist.`],[`{a} is {b} mm thick over the marginal ridge.`,`{a} ist über der Randleiste {b} mm dick.`],[`{a} is {b} mm thick in its middle.`,`{a} ist in der Mitte {b} mm dick.`],[`{a} is {b} mm thick over the marginal ridge; the opposing teeth leave {c} mm there.`,`{a} ist über der Randleiste {b} mm dick; die Gegenbezahnung lässt dort {c} mm.`],[`{a} is {b} mm thick in its middle; the opposing teeth leave {c} mm there.`,`{a} ist in der Mitte {b} mm dick; die Gegenbezahnung lässt dort {c} mm.`],[`Ask the dentist for a deeper seat, or check the room to the opposing teeth.`,`Um ein tieferes Bett bitten, oder den Platz zur Gegenbezahnung prüfen.`],[`Ask the dentist for a deeper seat.`,`Um ein tieferes Bett bitten.`],[`Ask the dentist for a deeper seat or a shorter opposing cusp.`,`Um ein tieferes Bett oder einen kürzeren Gegenhöcker bitten.`],[`The edge of the scan lies {a} mm below the occlusal plane (median); what lies deeper is not known.`,`Der Rand des Scans liegt {a} mm unter der Okklusionsebene (Median); was tiefer liegt, ist unbekannt.`],[`{a} mm2 ({b}%) of the ragged edge were cut off before the scan was closed.`,`{a} mm2 ({b} %) des ausgefransten Rands wurden abgeschnitten, bevor der Scan geschlossen wurde.`],[`Nothing of the scan is trimmed flat: it was taken as a scan in the mouth.`,`Nichts am Scan ist plan getrimmt: er gilt als Scan im Mund.`],[`The smoothest places of the scan are rough by {a} um or less.`,`Die glattesten Stellen des Scans sind um {a} um oder weniger rau.`],[`The occlusal plane was laid through {a} places on tooth tips, {b} mm from front to back.`,`Die Okklusionsebene wurde durch {a} Stellen auf Zahnspitzen gelegt, {b} mm von vorn nach hinten.`],[`The median edge of the mesh is {a} mm: too coarse for undercuts of hundredths of a millimetre; treat them as rough, or scan finer.`,`Die mittlere Kante des Netzes misst {a} mm: zu grob für Unterschnitte von Hundertsteln eines Millimeters; sie als grob nehmen oder feiner scannen.`],[`{a} % of the metal that lies on the model lies where nothing was scanned.`,`{a} % des Metalls, das auf dem Modell liegt, liegen, wo nichts gescannt wurde.`],[`{a} % of the metal that lies on the model lies where nothing was scanned; ask for a scan that shows the tissue there.`,`{a} % des Metalls, das auf dem Modell liegt, liegen, wo nichts gescannt wurde; um einen Scan bitten, der das Gewebe dort zeigt.`],[`The scan file carries no unit; mm was assumed, because the scan is then {a} mm long.`,`Die Scandatei trägt keine Einheit; mm wurde angenommen, weil der Scan dann {a} mm lang ist.`],[`The framework is {a} body.`,`Das Gerüst ist {a} Körper.`],[`The framework is {a} bodies; parts are not joined.`,`Das Gerüst besteht aus {a} Körpern; Teile sind nicht verbunden.`],[`Change the design between them.`,`Den Entwurf dazwischen ändern.`],[`The solid is closed and sound: status {a}, {b} mm3.`,`Der Körper ist geschlossen und fehlerfrei: Status {a}, {b} mm3.`],[`It cannot be printed; report the case.`,`Er kann nicht gedruckt werden; den Fall melden.`],[`Under a {a} of {b} N the framework reaches {c} MPa and first yields at {d} times that ({e}).`,`Unter {a} von {b} N erreicht das Gerüst {c} MPa und fließt erst beim {d}-Fachen ({e}).`],[`Thicken the metal there, or round the corner where it springs from.`,`Das Metall dort verdicken, oder die Ecke runden, aus der es entspringt.`],[`The border of the palatal connector keeps {a} mm from the margin of {b}.`,`Der Rand des palatinalen Verbinders hält {a} mm Abstand vom Gingivarand von {b}.`],[`Move the border away from the margin, or carry it onto the teeth.`,`Den Rand vom Gingivarand wegrücken oder auf die Zähne führen.`],[`The {a} strap is {b} mm wide at the midline.`,`Das {a} Band ist in der Mittellinie {b} mm breit.`],[`A narrower strap is a palatal bar and bends; widen it.`,`Ein schmaleres Band ist ein Palatinalbügel und biegt sich; verbreitern.`],[`No palatal strap crosses the midline: the two sides are not joined.`,`Kein Palatinalband quert die Mittellinie: die Seiten sind nicht verbunden.`],[`The major connector is a {a}.`,`Der große Verbinder ist: {a}.`],[`It covers gingival margins: the patient must keep them clean, and teeth that may be lost can be added to it.`,`Er bedeckt Gingivaränder: sie müssen sauber gehalten werden, und Zähne, die verloren gehen können, lassen sich ansetzen.`],[`Confirm it with the prescriber.`,`Mit der verordnenden Person abstimmen.`],[`The floor of the mouth must have been recorded in function; a scan at rest does not show it.`,`Der Mundboden muss in Funktion abgeformt sein; ein Scan in Ruhe zeigt ihn nicht.`],[`It needs sound front teeth and is felt by the tongue.`,`Er braucht gesunde Frontzähne und wird von der Zunge gespürt.`],[`It is longer than a bar behind the teeth and is felt by the lip.`,`Er ist länger als ein Bügel hinter den Zähnen und wird von der Lippe gespürt.`],[`Take it only where teeth or tissue lean so far towards the tongue that they cannot be corrected, and look at the frenum and the depth of the vestibule in the mouth.`,`Nur nehmen, wo Zähne oder Gewebe so weit zur Zunge neigen, dass es sich nicht korrigieren lässt; Bändchen und Tiefe des Vestibulums im Mund ansehen.`],[`It bends more than any other palatal connector.`,`Er biegt sich mehr als jeder andere palatinale Verbinder.`],[`Take it only where a torus or the patient leaves no room behind.`,`Nur nehmen, wo ein Torus oder die Patientin oder der Patient hinten keinen Platz lässt.`],[`It covers the whole palate.`,`Er bedeckt den ganzen Gaumen.`],[`Check its rear border against the soft palate in the mouth.`,`Seinen hinteren Rand im Mund gegen den weichen Gaumen prüfen.`],[`The arch is large: it is surveyed in steps of {a} mm instead of {b} mm.`,`Der Zahnbogen ist groß: er wird in Schritten von {a} mm statt {b} mm vermessen.`],[`The mark of tooth {a} was proposed by the program; check that it lies on {b}.`,`Die Marke von Zahn {a} hat das Programm vorgeschlagen; prüfen, ob sie auf {b} liegt.`],[`It is not sure of it: set the mark by hand.`,`Es ist sich nicht sicher: die Marke von Hand setzen.`],[`Third molar {a} is neither listed as missing nor marked; it is taken as absent.`,`Weisheitszahn {a} steht weder unter den fehlenden, noch ist er markiert; er gilt als nicht vorhanden.`],[`Metal reaches {a} um into the teeth, deepest in {b}.`,`Metall reicht {a} um in die Zähne, am tiefsten in {b}.`],[`It will not seat; the cut by the master model has failed there.`,`Es wird nicht sitzen; der Schnitt durch das Arbeitsmodell ist dort misslungen.`],[`The crown found for tooth {a} has an unusual {b} width; check its mark and region.`,`Die für Zahn {a} gefundene Krone hat eine ungewöhnliche {b} Breite; Marke und Bereich prüfen.`],[`{a} is of ISO 22674 type {b}; clasped frameworks with thin sections ask for type 5.`,`{a} ist nach ISO 22674 Typ {b}; Klammergerüste mit dünnen Querschnitten verlangen Typ 5.`],[`Have the prescriber agree to it.`,`Die Zustimmung der verordnenden Person einholen.`],[`Allergy to {a}: not a material that this program knows.`,`Allergie gegen {a}: kein Werkstoff, den dieses Programm kennt.`],[`Check alloy, acrylic and everything used at the chair side with the prescriber.`,`Legierung, Kunststoff und alles am Stuhl Verwendete mit der verordnenden Person prüfen.`],[`The functional depth of the floor of the mouth is not given, and a scan does not show it.`,`Die funktionelle Tiefe des Mundbodens ist nicht angegeben, und ein Scan zeigt sie nicht.`],[`{a} mm, {b} mm.`,`{a} mm, {b} mm.`],[`No framework is entered for the case.`,`Für den Fall ist kein Gerüst eingetragen.`],[`The statement for a custom-made device is not made yet.`,`Die Erklärung für eine Sonderanfertigung ist noch nicht erstellt.`],[`No revision of the design is entered.`,`Keine Fassung des Entwurfs ist eingetragen.`],[`The prescriber has not approved revision {a} as it stands (the hash differs or there is no approval).`,`Fassung {a} ist so, wie sie ist, nicht freigegeben (der Hash weicht ab, oder die Freigabe fehlt).`],[`No lot of powder is known for {a}.`,`Für {a} ist kein Pulverlos bekannt.`],[`The altered cast of the free ends is not done.`,`Der Altered Cast der Freienden ist nicht erledigt.`],[`Lot {a} has no certificate.`,`Los {a} hat kein Zeugnis.`],[`Lot {a} fails its specification.`,`Los {a} erfüllt seine Vorgaben nicht.`],[`Instrument {a} is not calibrated on {b}.`,`Messmittel {a} ist am {b} nicht kalibriert.`],[`Non-conformity {a} is open: {b}.`,`Abweichung {a} ist offen: {b}.`],[`The scan shows nothing of this area.`,`Der Scan zeigt nichts von diesem Bereich.`],[`The metal found no rest: it still slid.`,`Das Metall fand keine Ruhelage: es glitt noch.`],[`Check alignment, path and areas.`,`Ausrichtung, Richtung und Bereiche prüfen.`],[`The {a} is {b} mm; adjust, or make the framework anew.`,`{a}: {b} mm; nacharbeiten oder das Gerüst neu anfertigen.`],[`The platform became hotter than the schedule allows.`,`Die Bauplattform wurde heißer, als der Glühplan erlaubt.`],[`The platform was not at temperature for long enough; relieve again before cutting.`,`Die Bauplattform war nicht lange genug auf Temperatur; vor dem Trennen noch einmal glühen.`],[`The platform was at temperature for longer than planned.`,`Die Bauplattform war länger als geplant auf Temperatur.`],[`The platform cooled faster than the schedule allows, which brings stress back.`,`Die Bauplattform kühlte schneller ab, als der Glühplan erlaubt; das bringt Spannung zurück.`],[`The log ends while the platform is still hot: unloaded early, or the log was cut off.`,`Die Aufzeichnung endet, während die Bauplattform noch heiß ist: zu früh ausgeladen oder abgebrochen.`],[`No gas was logged; show by other means that {a} flowed.`,`Kein Gas aufgezeichnet; anders nachweisen, dass {a} floss.`],[`The chamber was not purged with {a} for long enough before heating.`,`Die Kammer wurde vor dem Heizen nicht lange genug mit {a} gespült.`],[`{a} failed while the platform was hot: look for oxide.`,`{a} fiel aus, während die Bauplattform heiß war: auf Oxid achten.`],[`The log pauses; what happened in between is not proven.`,`Die Aufzeichnung hat Lücken; was dazwischen geschah, ist nicht nachgewiesen.`],[`A printed resin model softens in the bath: duplicate it in stone before packing.`,`Ein gedrucktes Kunststoffmodell wird im Bad weich: vor dem Pressen in Gips doublieren.`],[`The bath boils before the mass has set: the monomer boils at {a} degC and leaves pores.`,`Das Bad kocht, bevor die Masse abgebunden hat: das Monomer siedet bei {a} °C und hinterlässt Poren.`],[`Hold at 74 degC first.`,`Zuerst bei 74 °C halten.`],[`The bath is hotter than the monomer boils.`,`Das Bad ist heißer als der Siedepunkt des Monomers.`],[`Neither the long cycle (74 degC, 8 to 9 h) nor the short one (74 degC for 1.5 to 2 h, then 100 degC for 1 h): follow the maker's instructions.`,`Weder der lange Zyklus (74 °C, 8 bis 9 h) noch der kurze (74 °C für 1,5 bis 2 h, dann 100 °C für 1 h): den Angaben des Herstellers folgen.`],[`Cool on the bench for 30 min, then in water for 15 min: quenching warps the base.`,`30 min an der Luft, dann 15 min in Wasser abkühlen: Abschrecken verzieht die Basis.`],[`Cool in water for 15 min before opening.`,`Vor dem Öffnen 15 min in Wasser abkühlen.`],[`Mandible, {a}.`,`Unterkiefer, {a}.`],[`Maxilla, {a}.`,`Oberkiefer, {a}.`],[`Missing and to be replaced: {a}.`,`Fehlend und zu ersetzen: {a}.`],[`Missing, not replaced: {a}.`,`Fehlend, nicht ersetzt: {a}.`],[`Third molars that carry the denture: {a}.`,`Weisheitszähne, die die Prothese tragen: {a}.`],[`Functional lingual depth, probed: {a} mm.`,`Funktionelle linguale Tiefe, sondiert: {a} mm.`],[`The functional lingual depth was not probed.`,`Die funktionelle linguale Tiefe wurde nicht sondiert.`],[`Allergies: {a} (not cleared by the prescriber).`,`Allergien: {a} (von der verordnenden Person nicht freigegeben).`],[`Allergies: {a} ({b}).`,`Allergien: {a} ({b}).`],[`Vertical dimension: {a}`,`Vertikaldimension: {a}`],[`Prescribed on {a}.`,`Verordnet am {a}.`],[`Kennedy class {a} modification {b}`,`Kennedy-Klasse {a}, Modifikation {b}`],[`Kennedy class {a}`,`Kennedy-Klasse {a}`],[`{a} free end`,`{a} Freiende`],[`Path of placement: at right angles to the occlusal plane (no tilt).`,`Einschubrichtung: rechtwinklig zur Okklusionsebene (ohne Neigung).`],[`Choose another tooth or side, or ask the dentist to recontour the tooth.`,`Einen anderen Zahn oder eine andere Seite wählen, oder um Beschleifen des Zahns bitten.`],[`Take these figures with that uncertainty, or ask for smaller cells with --step-mm.`,`Diese Zahlen mit dieser Unsicherheit nehmen, oder mit --step-mm kleinere Zellen verlangen.`],[`From cells of {a} mm to {b} mm the figures of {c} loads move by {d} % at most; {e}.`,`Von Zellen von {a} mm zu {b} mm ändern sich die Zahlen von {c} Lasten um höchstens {d} %; {e}.`],[`tooth {a}, {b} rest seat: prepare one, {c} mm deep in its middle, {d} mm wide.`,`Zahn {a}, Auflagenbett {b}: eines präparieren, in der Mitte {c} mm tief, {d} mm breit.`],[`tooth {a}, {b} rest seat: prepare one, {c} mm deep, {d} mm wide.`,`Zahn {a}, Auflagenbett {b}: eines präparieren, {c} mm tief, {d} mm breit.`],[`tooth {a}, {b} rest seat: deepen by {c} mm; it has {d} mm.`,`Zahn {a}, Auflagenbett {b}: um {c} mm vertiefen; es hat {d} mm.`],[`tooth {a}, {b} rest seat: let the floor fall towards the middle of the tooth; it stands at {c} degrees to the minor connector, and the rest would slide off.`,`Zahn {a}, Auflagenbett {b}: den Boden zur Zahnmitte fallen lassen; er steht in {c} Grad zum kleinen Verbinder, und die Auflage würde abgleiten.`],[`tooth {a}, {b} rest seat: {c} mm deep, {d} mm wide; nothing to do.`,`Zahn {a}, Auflagenbett {b}: {c} mm tief, {d} mm breit; nichts zu tun.`],[`tooth {a}, {b} rest seat: {c} mm deep, {d} mm wide; rather deep, see that enamel is left.`,`Zahn {a}, Auflagenbett {b}: {c} mm tief, {d} mm breit; eher tief, auf verbleibenden Schmelz achten.`],[`tooth {a}, {b} guiding plane: reduce by up to {c} mm, from {d} mm below the top of the crown downwards, {e} mm high along the path; there is {f} mm high, {g} mm2.`,`Zahn {a}, {b} Führungsfläche: bis zu {c} mm abtragen, ab {d} mm unter der Kronenspitze abwärts, {e} mm hoch entlang der Einschubrichtung; vorhanden sind {f} mm Höhe, {g} mm2.`],[`tooth {a}, {b} guiding plane: flatten it to a third of the tooth's width; there is {c} mm high, {d} mm2.`,`Zahn {a}, {b} Führungsfläche: auf ein Drittel der Zahnbreite abflachen; vorhanden sind {c} mm Höhe, {d} mm2.`],[`tooth {a}, {b} guiding plane: {c} mm high, {d} mm2; nothing to do.`,`Zahn {a}, {b} Führungsfläche: {c} mm hoch, {d} mm2; nichts zu tun.`],[`{a}: height of the splinting bar {b} mm.`,`{a}: Höhe des Schienungsbügels {b} mm.`],[`{a}: thickness of the splinting bar {b} mm.`,`{a}: Dicke des Schienungsbügels {b} mm.`],[`A thinner bar bends and no longer holds the teeth together; ask for room.`,`Ein dünnerer Bügel biegt sich und hält die Zähne nicht mehr zusammen; um Platz bitten.`],[`{a} crosses {b} mm.`,`{a} überspannt {b} mm.`],[`It bends with the cube of its length: thicken it, or ask whether a base is meant.`,`Er biegt sich mit der dritten Potenz seiner Länge: verdicken oder fragen, ob eine Basis gemeint ist.`],[`{a} passes {b} mm over the ridge.`,`{a} verläuft {b} mm über dem Kieferkamm.`],[`Food lodges in it: raise the bar, or ask for another height of its plates.`,`Darin setzt sich Speise fest: den Bügel höher legen oder um eine andere Höhe seiner Platten bitten.`],[`{a} is lowered from {b} to {c} mm of height for want of room under the opposing teeth; look whether it is still stiff enough.`,`{a} wird mangels Platz unter den Gegenzähnen von {b} auf {c} mm Höhe verringert; prüfen, ob er noch steif genug ist.`],[`{a} runs below the survey line of {b} and stands {c} mm off it: it does not hold that tooth, and food lodges there.`,`{a} verläuft unter der Äquatorlinie von {b} und steht {c} mm davon ab: er hält diesen Zahn nicht, und Speise setzt sich dort fest.`],[`Ask for another tilt, or leave the tooth out.`,`Um eine andere Neigung bitten oder den Zahn auslassen.`],[`The splinting bar on {a} is left off: tooth {b} does not stand on the scan.`,`Der Schienungsbügel auf {a} entfällt: Zahn {b} steht nicht auf dem Scan.`],[`Name standing teeth only.`,`Nur stehende Zähne nennen.`],[`The splinting bar on {a} is left off: a base with its teeth fills that space.`,`Der Schienungsbügel auf {a} entfällt: eine Basis mit ihren Zähnen füllt diese Lücke.`],[`Leave the base away (not_replaced), or the bar: a base joins them too.`,`Die Basis weglassen (not_replaced) oder den Bügel: auch eine Basis verbindet sie.`],[`The splinting bar on {a} is left off: the teeth are neither the two neighbours of one space nor an unbroken row.`,`Der Schienungsbügel auf {a} entfällt: die Zähne sind weder die beiden Nachbarn einer Lücke noch eine geschlossene Reihe.`],[`Name the two teeth beside a space, or every tooth of a row side by side.`,`Die beiden Zähne neben einer Lücke nennen oder alle Zähne einer geschlossenen Reihe.`],[`The splinting bar on {a} is left off: the {b} lies on the tongue side of these teeth already.`,`Der Schienungsbügel auf {a} entfällt: der Verbinder ({b}) liegt schon auf der Zungenseite dieser Zähne.`],[`Leave the bar away, or ask for another major connector.`,`Den Bügel weglassen oder um einen anderen großen Verbinder bitten.`],[`The splinting bar on {a} is left off: over the ridge it would pass above the plates that it must be joined to.`,`Der Schienungsbügel auf {a} entfällt: über dem Kieferkamm läge er höher als die Platten, an die er anschließen muss.`],[`Ask for higher plates and rests on both teeth, or leave the bar away.`,`Um höhere Platten und Auflagen auf beiden Zähnen bitten oder den Bügel weglassen.`],[`The splinting bar on {a} is left off: tooth {b} has no proximal plate towards the space.`,`Der Schienungsbügel auf {a} entfällt: Zahn {b} hat keine Approximalplatte zur Lücke hin.`],[`Give tooth {a} a [[retainer]] with a rest and proximal_plate = "{b}".`,`Zahn {a} ein [[retainer]] mit einer Auflage und proximal_plate = "{b}" geben.`],[`The splinting bar on {a} is left off: the major connector does not pass by the plate of {b}.`,`Der Schienungsbügel auf {a} entfällt: der große Verbinder führt nicht an der Platte von {b} vorbei.`],[`Ask for another form of major connector, or leave the bar away.`,`Um eine andere Form des großen Verbinders bitten oder den Bügel weglassen.`],[`The splinting bar on {a} is left off: beside tooth {b} there is no rest, plate or minor connector to join it to.`,`Der Schienungsbügel auf {a} entfällt: neben Zahn {b} ist keine Auflage, Platte und kein kleiner Verbinder, woran er anschließen könnte.`],[`Give tooth {a}, or the one beyond it, a [[retainer]] with a rest.`,`Zahn {a} oder dem dahinter ein [[retainer]] mit einer Auflage geben.`],[`The splinting bar on {a} is left off: the opposing teeth leave {b} mm for it.`,`Der Schienungsbügel auf {a} entfällt: die Gegenzähne lassen ihm {b} mm.`],[`Ask the dentist for room there, or leave the bar away.`,`Den Zahnarzt um Platz dort bitten oder den Bügel weglassen.`]]}},Kn=new Map,qn=new Map;function Jn(e,t){let n=Gn[t];if(!n||!e)return{text:e,whole:!0};let r=`${t} ${e}`,i=qn.get(r);return i||qn.set(r,i=Yn(e,n,Zn(t,n))),i}function Yn(e,t,n){let r=t.words[e];if(r)return{text:r,whole:!0};let i=null;for(let{begins:r,finds:a,names:o,gives:s}of n){if(!e.startsWith(r))continue;let c=a.exec(e);if(!c)continue;let l=new Map(o.map((e,n)=>[e,Xn(c[n+1],t)])),u=s.replace(/\{(\w)\}/g,(e,t)=>l.get(t)??``),d=c[o.length+1];if(!d)return{text:u,whole:!0};let f=Yn(d,t,n),p={text:`${u} ${f.text}`,whole:f.whole};if(p.whole)return p;i??=p}return i??{text:e,whole:!1}}function Xn(e,t){return t.words[e]||(/^-?\d+\.\d+$/.test(e)?e.replace(`.`,`,`):e.startsWith(`Kennedy class `)||e.includes(` free end`)?e.replace(`Kennedy class`,`Kennedy-Klasse`).replace(`modification`,`Modifikation`).replaceAll(`free end`,`Freiende`):e)}function Zn(e,t){let n=Kn.get(e);return n||(n=t.sentences.map(([e,t])=>Qn(e,t)),n.sort((e,t)=>t.finds.source.length-4*t.names.length-(e.finds.source.length-4*e.names.length)),Kn.set(e,n)),n}function Qn(e,t){let n=[],r=e.replace(/[.*+?^$()|[\]\\]/g,`\\$&`).replace(/\{(\w)\}/g,(e,t)=>(n.push(t),`(.+?)`));return{begins:e.split(`{`)[0],finds:RegExp(`^${r}(?: (.+))?$`,`s`),names:n,gives:t}}function $n({text:e}){let t=Jn(e,H.value);return t.whole?W(b,{children:t.text}):W(`span`,{lang:`en`,children:t.text})}function G(e){return Jn(e,H.value).text}var er=Qe({rests:[],clasps:[],connectors:{}});async function tr(){let{data:e}=await B.GET(`/api/forms`);e&&(er.value=e)}ct(()=>{vn.value&&(!vn.value.accounts||vn.value.name)&&tr()});var nr=Qe(null),rr=0,ir=``;async function ar(){let e=`${Xt.value} ${qt.value?.view_stamp}`;ir!==e&&qt.value?.view_stamp&&(ir=e,await B.POST(`/api/cases/{name}/live/ready`,{params:{path:{name:Xt.value}}}))}async function or(){let e=++rr,t={params:{path:{name:Xt.value}}};for(let n of[`/api/cases/{name}/live/laid`,`/api/cases/{name}/live/cut`]){let{data:r}=await B.POST(n,t);if(e!==rr||(nr.value=r?{...r}:null,!r?.cuts))return}}function sr(){rr++,nr.value=null}ct(()=>{Dn.value&&(kn.value===`tip`||kn.value===`border`||On.value!==null)&&ar()});function cr({name:e,arch:t}){let n=qt.value?.connector??null,r=z(n);F(()=>{r.value=n},[qt.value]);let i=r.value,a=er.value.connectors[t]??[];if(!i)return null;let o=i.form.includes(`bar`)?`height_mm`:`width_mm`,s=[[o,U(o===`height_mm`?`height`:`width`),.5],[`thickness_mm`,U(`thickness`),.1],[`margin_distance_mm`,U(`fromMargins`),.5],[`relief_mm`,U(`reliefOf`),.05]],c=async()=>dn(await B.PUT(`/api/cases/{name}/connector`,{params:{path:{name:e}},body:{connector:i,...fn(`major connector: ${i.form}`)}}));return W(`section`,{onFocusIn:()=>void ar(),children:[W(`h2`,{children:U(`connector`)}),W(`div`,{class:`row`,children:[W(`select`,{"aria-label":U(`connector`),value:i.form,onChange:e=>r.value={...i,form:e.currentTarget.value},children:a.map(e=>W(`option`,{value:e,children:G(e)},e))}),s.map(([e,t,n])=>W(`label`,{class:`number`,children:[t,W(`input`,{type:`number`,step:n,min:0,value:i[e],onChange:t=>r.value={...i,[e]:t.currentTarget.valueAsNumber}}),`mm`]},e)),W(`button`,{onClick:()=>void c(),children:U(`keep`)})]})]})}function lr(e,t,n){if(e==null)return``;if(typeof e==`string`)return t?`${e} ${t}`:e;let r=Math.abs(e),i=r>=100?0:r>=10?1:2,a=e.toLocaleString(n,{maximumFractionDigits:i}),o={deg:`°`,degC:` °C`,mm2:` mm²`,mm3:` mm³`,um:` µm`}[t];return o?a+o:t?`${a}\u00a0${t}`:a}function ur(e){return{deg:`°`,degC:`°C`,mm2:`mm²`,mm3:`mm³`,um:`µm`}[e]??e}function dr(e,t){return e?new Date(e).toLocaleDateString(t):``}function fr(e,t){return new Date(e).toLocaleString(t,{dateStyle:`short`,timeStyle:`short`})}function pr({view:e,stamp:t}){let n=`/api/cases/${encodeURIComponent(Xt.value)}`,r=[...new Set(e.pictures.map(e=>e.group))];return W(`section`,{"aria-labelledby":`evidence`,children:[W(`h2`,{id:`evidence`,children:U(`evidence`)}),W(`dl`,{class:`measures`,children:e.measures.map(e=>W(`div`,{children:[W(`dt`,{children:G(e.name)}),W(`dd`,{title:e.source,children:lr(e.value,e.unit,H.value)})]},e.name))}),r.map(r=>W(`details`,{children:[W(`summary`,{children:G(r)}),W(`div`,{class:`pictures`,children:e.pictures.filter(e=>e.group===r).map(e=>W(`figure`,{children:[W(`a`,{href:`${n}/view/${e.file}?at=${t}`,target:`_blank`,rel:`noreferrer`,children:W(`img`,{loading:`lazy`,src:`${n}/view/${e.file}?at=${t}`,alt:e.alt})}),W(`figcaption`,{class:`small`,children:G(e.caption)})]},e.file))})]},r)),W(`h3`,{children:U(`files`)}),W(`ul`,{class:`files`,children:qt.value?.results.map(e=>W(`li`,{children:W(`a`,{href:`${n}/results/${e}`,target:`_blank`,rel:`noreferrer`,children:e})},e))})]})}var mr={stop:`stop`,look:`lookAt`,note:`note`},hr={stop:`■`,look:`◆`,note:`●`};function gr({findings:e}){return e.length?W(b,{children:[`stop`,`look`,`note`].map(t=>{let n=e.filter(e=>e.severity===t);return n.length?W(`details`,{open:t!==`note`,class:`findings ${t}`,children:[W(`summary`,{children:[W(`span`,{class:`sign`,"aria-hidden":`true`,children:hr[t]}),` `,n.length,` `,G(t),`: `,U(mr[t])]}),W(`ul`,{children:_r(n).map(([e,...t],n)=>W(vr,{finding:e,others:t},n))})]},t):null})}):W(`p`,{class:`hint`,children:U(`noFindings`)})}function _r(e){let t=new Map;return e.forEach((e,n)=>{let r=e.severity===`stop`?`${n}`:e.rule;t.set(r,[...t.get(r)??[],e])}),[...t.values()].flatMap(e=>e.length<3?e.map(e=>[e]):[e])}function vr({finding:e,others:t=[]}){let n=t=>lr(t,e.unit,H.value);return W(`li`,{"data-rule":e.rule,"data-component":e.component,children:[W(`p`,{children:W($n,{text:e.text})}),W(`p`,{class:`small`,children:[e.measured!==null&&W(`span`,{children:[U(`measured`),` `,W(`b`,{children:n(e.measured)})]}),e.limit!==null&&W(`span`,{children:[U(`limit`),` `,W(`b`,{children:n(e.limit)})]}),W(`span`,{children:[U(`source`),`: `,W($n,{text:e.source})]}),e.at_arch_mm&&W(`button`,{class:`link`,"aria-label":`${U(`show`)}: ${G(e.text)}`,onClick:()=>jn.value={at:e.at_arch_mm,words:e.rule},children:U(`show`)})]}),t.length>0&&W(`details`,{class:`others`,children:[W(`summary`,{class:`small`,children:[t.length,` `,U(`alike`)]}),W(`ul`,{children:t.map((e,t)=>W(vr,{finding:e},t))})]})]})}function yr({name:e,children:t}){let n=qt.value?.line;return W(`header`,{children:[W(`p`,{children:W(`a`,{href:`#/`,children:U(`back`)})}),W(`h1`,{children:e}),W(`p`,{class:`class`,children:[n&&G(n.kennedy),n?.due&&`, ${U(`due`)} ${dr(n.due,H.value)}`]}),W(`nav`,{"aria-label":U(`pages`),children:Ut.map(t=>W(`a`,{href:rn(e,t),"aria-current":Zt.value===t?`page`:void 0,children:[U(t),br(t)]},t))}),t]})}function br(e){let t=tn.value;if(!t)return null;let n=t.stages.find(t=>t.stage===e),r=e===`build`?t.builds.length>0:n?.done??!1,i=e===`build`?(t.builds[0]?.stale.length??0)>0:n?.stale??!1;return r?W(`span`,{class:i?`look`:`note`,children:[i?` ◆`:` ●`,W(`span`,{class:`unseen`,children:U(i?`stale`:`done`)})]}):null}function xr({name:e,children:t}){let n=hn(e),r=qt.value?.line.standing;if(n){let e=Math.round(n.fraction*100);return W(`div`,{class:`job`,children:[W(`label`,{children:[W(`span`,{children:G(n.phase||n.state)}),W(`progress`,{max:100,value:e,"aria-label":n.task})]}),W(`span`,{class:`figure`,children:[e,` %`]}),W(`button`,{onClick:()=>void mn(n.id),children:U(`cancel`)})]})}return t?W(`div`,{class:`job`,children:t}):W(`div`,{class:`job`,children:[r===`stale`&&W(`span`,{class:`hint`,children:U(`stale`)}),r===`not worked out`&&W(`span`,{class:`hint`,children:U(`never`)}),W(`button`,{class:r===`worked out`?``:`first`,disabled:r===`sheet has errors`,onClick:()=>void pn(e),children:U(`workOut`)})]})}var Sr=new Map,Cr=new Map,wr=null,Tr=0,Er=0,Dr=4e3;function Or(){clearTimeout(Er),wr??=Pr()}function kr(){clearTimeout(Er),Er=window.setTimeout(()=>{wr?.terminate(),wr=null},Dr)}function Ar(e,t,n){Cr.clear();for(let r of t){let t=Nr(r,Mr(e,r,n));t.catch(()=>{}),Cr.set(Mr(e,r,n),t)}}function jr(e,t,n){let r=Mr(e,t,n),i=Cr.get(r);return Cr.delete(r),i??Nr(t,r)}function Mr(e,t,n){let r=t.from??`/api/cases/${encodeURIComponent(e)}/view`;return new URL(`${r}/${t.key}.bin?at=${n}`,location.href).href}function Nr(e,t){Or();let n=++Tr,r={id:n,url:t,part:e};return new Promise((t,i)=>{let a=()=>{},o=new Promise(e=>a=e);Sr.set(n,{part:e,drawn:t,pickable:a,failed:i,tree:o}),wr.postMessage(r)})}function Pr(){let e=new Worker(new URL(new URL(`meshes.worker.js`,import.meta.url).href,``+import.meta.url),{type:`module`});return e.onmessage=({data:e})=>{let t=Sr.get(e.id);t&&(e.kind===`drawn`?t.drawn({raw:Ne(e.bytes,t.part),normals:e.normals,tree:t.tree}):(Sr.delete(e.id),Sr.size||kr(),e.kind===`pickable`?t.pickable(e.tree):t.failed(Error(`The mesh ${t.part.name} cannot be read.`))))},e}var Fr=1e3,Ir=1001,Lr=1002,Rr=1003,zr=1004,Br=1005,Vr=1006,Hr=1007,Ur=1008,Wr=1009,Gr=1010,Kr=1011,qr=1012,Jr=1013,Yr=1014,Xr=1015,Zr=1016,Qr=1017,$r=1018,ei=1020,ti=35902,ni=35899,ri=1021,ii=1022,ai=1023,oi=1026,si=1027,ci=1028,li=1029,ui=1030,di=1031,fi=1033,pi=33776,mi=33777,hi=33778,gi=33779,_i=35840,vi=35841,yi=35842,bi=35843,xi=36196,Si=37492,Ci=37496,wi=37488,Ti=37489,Ei=37490,Di=37491,Oi=37808,ki=37809,Ai=37810,ji=37811,Mi=37812,Ni=37813,Pi=37814,Fi=37815,Ii=37816,Li=37817,Ri=37818,zi=37819,Bi=37820,Vi=37821,Hi=36492,Ui=36494,Wi=36495,Gi=36283,Ki=36284,qi=36285,Ji=36286,Yi=2300,Xi=2301,Zi=2302,Qi=2303,$i=2400,ea=2401,ta=2402,na=3200,ra=`srgb`,ia=`srgb-linear`,aa=`linear`,oa=`srgb`,sa=7680,ca=35044,la=2e3;function ua(e){for(let t=e.length-1;t>=0;--t)if(e[t]>=65535)return!0;return!1}function da(e){return ArrayBuffer.isView(e)&&!(e instanceof DataView)}function fa(e){return document.createElementNS(`http://www.w3.org/1999/xhtml`,e)}function pa(){let e=fa(`canvas`);return e.style.display=`block`,e}var ma={};function ha(...e){let t=`THREE.`+e.shift();console.log(t,...e)}function ga(e){let t=e[0];if(typeof t==`string`&&t.startsWith(`TSL:`)){let t=e[1];t&&t.isStackTrace?e[0]+=` `+t.getLocation():e[1]=`Stack trace not available. Enable "THREE.Node.captureStackTrace" to capture stack traces.`}return e}function K(...e){e=ga(e);let t=`THREE.`+e.shift();{let n=e[0];n&&n.isStackTrace?console.warn(n.getError(t)):console.warn(t,...e)}}function q(...e){e=ga(e);let t=`THREE.`+e.shift();{let n=e[0];n&&n.isStackTrace?console.error(n.getError(t)):console.error(t,...e)}}function _a(...e){let t=e.join(` `);t in ma||(ma[t]=!0,K(...e))}function va(e,t,n){return new Promise(function(r,i){function a(){switch(e.clientWaitSync(t,e.SYNC_FLUSH_COMMANDS_BIT,0)){case e.WAIT_FAILED:i();break;case e.TIMEOUT_EXPIRED:setTimeout(a,n);break;default:r()}}setTimeout(a,n)})}var ya={0:0,2:6,4:4,3:5,1:1,6:2,7:7,5:3},ba=class{addEventListener(e,t){this._listeners===void 0&&(this._listeners={});let n=this._listeners;n[e]===void 0&&(n[e]=[]),n[e].indexOf(t)===-1&&n[e].push(t)}hasEventListener(e,t){let n=this._listeners;return n!==void 0&&n[e]!==void 0&&n[e].indexOf(t)!==-1}removeEventListener(e,t){let n=this._listeners;if(n===void 0)return;let r=n[e];if(r!==void 0){let e=r.indexOf(t);e!==-1&&r.splice(e,1)}}dispatchEvent(e){let t=this._listeners;if(t===void 0)return;let n=t[e.type];if(n!==void 0){e.target=this;let t=n.slice(0);for(let n=0,r=t.length;n<r;n++)t[n].call(this,e);e.target=null}}},xa=`00.01.02.03.04.05.06.07.08.09.0a.0b.0c.0d.0e.0f.10.11.12.13.14.15.16.17.18.19.1a.1b.1c.1d.1e.1f.20.21.22.23.24.25.26.27.28.29.2a.2b.2c.2d.2e.2f.30.31.32.33.34.35.36.37.38.39.3a.3b.3c.3d.3e.3f.40.41.42.43.44.45.46.47.48.49.4a.4b.4c.4d.4e.4f.50.51.52.53.54.55.56.57.58.59.5a.5b.5c.5d.5e.5f.60.61.62.63.64.65.66.67.68.69.6a.6b.6c.6d.6e.6f.70.71.72.73.74.75.76.77.78.79.7a.7b.7c.7d.7e.7f.80.81.82.83.84.85.86.87.88.89.8a.8b.8c.8d.8e.8f.90.91.92.93.94.95.96.97.98.99.9a.9b.9c.9d.9e.9f.a0.a1.a2.a3.a4.a5.a6.a7.a8.a9.aa.ab.ac.ad.ae.af.b0.b1.b2.b3.b4.b5.b6.b7.b8.b9.ba.bb.bc.bd.be.bf.c0.c1.c2.c3.c4.c5.c6.c7.c8.c9.ca.cb.cc.cd.ce.cf.d0.d1.d2.d3.d4.d5.d6.d7.d8.d9.da.db.dc.dd.de.df.e0.e1.e2.e3.e4.e5.e6.e7.e8.e9.ea.eb.ec.ed.ee.ef.f0.f1.f2.f3.f4.f5.f6.f7.f8.f9.fa.fb.fc.fd.fe.ff`.split(`.`),Sa=1234567,Ca=Math.PI/180,wa=180/Math.PI;function Ta(){let e=Math.random()*4294967295|0,t=Math.random()*4294967295|0,n=Math.random()*4294967295|0,r=Math.random()*4294967295|0;return(xa[e&255]+xa[e>>8&255]+xa[e>>16&255]+xa[e>>24&255]+`-`+xa[t&255]+xa[t>>8&255]+`-`+xa[t>>16&15|64]+xa[t>>24&255]+`-`+xa[n&63|128]+xa[n>>8&255]+`-`+xa[n>>16&255]+xa[n>>24&255]+xa[r&255]+xa[r>>8&255]+xa[r>>16&255]+xa[r>>24&255]).toLowerCase()}function J(e,t,n){return Math.max(t,Math.min(n,e))}function Ea(e,t){return(e%t+t)%t}function Da(e,t,n,r,i){return r+(e-t)*(i-r)/(n-t)}function Oa(e,t,n){return e===t?0:(n-e)/(t-e)}function ka(e,t,n){return(1-n)*e+n*t}function Aa(e,t,n,r){return ka(e,t,1-Math.exp(-n*r))}function ja(e,t=1){return t-Math.abs(Ea(e,t*2)-t)}function Ma(e,t,n){return e<=t?0:e>=n?1:(e=(e-t)/(n-t),e*e*(3-2*e))}function Na(e,t,n){return e<=t?0:e>=n?1:(e=(e-t)/(n-t),e*e*e*(e*(e*6-15)+10))}function Pa(e,t){return e+Math.floor(Math.random()*(t-e+1))}function Fa(e,t){return e+Math.random()*(t-e)}function Ia(e){return e*(.5-Math.random())}function La(e){e!==void 0&&(Sa=e);let t=Sa+=1831565813;return t=Math.imul(t^t>>>15,t|1),t^=t+Math.imul(t^t>>>7,t|61),((t^t>>>14)>>>0)/4294967296}function Ra(e){return e*Ca}function za(e){return e*wa}function Ba(e){return e>0&&Number.isInteger(e)&&2**Math.round(Math.log2(e))===e}function Va(e){return 2**Math.ceil(Math.log(e)/Math.LN2)}function Ha(e){return 2**Math.floor(Math.log(e)/Math.LN2)}function Ua(e,t,n,r,i){let a=Math.cos,o=Math.sin,s=a(n/2),c=o(n/2),l=a((t+r)/2),u=o((t+r)/2),d=a((t-r)/2),f=o((t-r)/2),p=a((r-t)/2),m=o((r-t)/2);switch(i){case`XYX`:e.set(s*u,c*d,c*f,s*l);break;case`YZY`:e.set(c*f,s*u,c*d,s*l);break;case`ZXZ`:e.set(c*d,c*f,s*u,s*l);break;case`XZX`:e.set(s*u,c*m,c*p,s*l);break;case`YXY`:e.set(c*p,s*u,c*m,s*l);break;case`ZYZ`:e.set(c*m,c*p,s*u,s*l);break;default:K(`MathUtils: .setQuaternionFromProperEuler() encountered an unknown order: `+i)}}function Wa(e){switch(e.constructor){case Uint32Array:return 4294967295;case Uint16Array:return 65535;case Uint8Array:case Uint8ClampedArray:return 255;case Int32Array:return 2147483647;case Int16Array:return 32767;case Int8Array:return 127;default:return}}function Ga(e,t){if(t.constructor===Float32Array)return e;let n=Wa(t);if(n===void 0)throw Error(`THREE.MathUtils: Invalid component type.`);return Math.max(e/n,-1)}function Ka(e,t){if(t.constructor===Float32Array)return e;let n=Wa(t);if(n===void 0)throw Error(`THREE.MathUtils: Invalid component type.`);return Math.round(e*n)}var qa={DEG2RAD:Ca,RAD2DEG:wa,generateUUID:Ta,clamp:J,euclideanModulo:Ea,mapLinear:Da,inverseLerp:Oa,lerp:ka,damp:Aa,pingpong:ja,smoothstep:Ma,smootherstep:Na,randInt:Pa,randFloat:Fa,randFloatSpread:Ia,seededRandom:La,degToRad:Ra,radToDeg:za,isPowerOfTwo:Ba,ceilPowerOfTwo:Va,floorPowerOfTwo:Ha,setQuaternionFromProperEuler:Ua,normalize:Ka,denormalize:Ga},Y=class{static{this.prototype.isVector2=!0}constructor(e=0,t=0){this.x=e,this.y=t}get width(){return this.x}set width(e){this.x=e}get height(){return this.y}set height(e){this.y=e}set(e,t){return this.x=e,this.y=t,this}setScalar(e){return this.x=e,this.y=e,this}setX(e){return this.x=e,this}setY(e){return this.y=e,this}setComponent(e,t){switch(e){case 0:this.x=t;break;case 1:this.y=t;break;default:throw Error(`THREE.Vector2: index is out of range: `+e)}return this}getComponent(e){switch(e){case 0:return this.x;case 1:return this.y;default:throw Error(`THREE.Vector2: index is out of range: `+e)}}clone(){return new this.constructor(this.x,this.y)}copy(e){return this.x=e.x,this.y=e.y,this}add(e){return this.x+=e.x,this.y+=e.y,this}addScalar(e){return this.x+=e,this.y+=e,this}addVectors(e,t){return this.x=e.x+t.x,this.y=e.y+t.y,this}addScaledVector(e,t){return this.x+=e.x*t,this.y+=e.y*t,this}sub(e){return this.x-=e.x,this.y-=e.y,this}subScalar(e){return this.x-=e,this.y-=e,this}subVectors(e,t){return this.x=e.x-t.x,this.y=e.y-t.y,this}multiply(e){return this.x*=e.x,this.y*=e.y,this}multiplyScalar(e){return this.x*=e,this.y*=e,this}divide(e){return this.x/=e.x,this.y/=e.y,this}divideScalar(e){return this.multiplyScalar(1/e)}applyMatrix3(e){let t=this.x,n=this.y,r=e.elements;return this.x=r[0]*t+r[3]*n+r[6],this.y=r[1]*t+r[4]*n+r[7],this}min(e){return this.x=Math.min(this.x,e.x),this.y=Math.min(this.y,e.y),this}max(e){return this.x=Math.max(this.x,e.x),this.y=Math.max(this.y,e.y),this}clamp(e,t){return this.x=J(this.x,e.x,t.x),this.y=J(this.y,e.y,t.y),this}clampScalar(e,t){return this.x=J(this.x,e,t),this.y=J(this.y,e,t),this}clampLength(e,t){let n=this.length();return this.divideScalar(n||1).multiplyScalar(J(n,e,t))}floor(){return this.x=Math.floor(this.x),this.y=Math.floor(this.y),this}ceil(){return this.x=Math.ceil(this.x),this.y=Math.ceil(this.y),this}round(){return this.x=Math.round(this.x),this.y=Math.round(this.y),this}roundToZero(){return this.x=Math.trunc(this.x),this.y=Math.trunc(this.y),this}negate(){return this.x=-this.x,this.y=-this.y,this}dot(e){return this.x*e.x+this.y*e.y}cross(e){return this.x*e.y-this.y*e.x}lengthSq(){return this.x*this.x+this.y*this.y}length(){return Math.sqrt(this.x*this.x+this.y*this.y)}manhattanLength(){return Math.abs(this.x)+Math.abs(this.y)}normalize(){return this.divideScalar(this.length()||1)}angle(){return Math.atan2(-this.y,-this.x)+Math.PI}angleTo(e){let t=Math.sqrt(this.lengthSq()*e.lengthSq());if(t===0)return Math.PI/2;let n=this.dot(e)/t;return Math.acos(J(n,-1,1))}distanceTo(e){return Math.sqrt(this.distanceToSquared(e))}distanceToSquared(e){let t=this.x-e.x,n=this.y-e.y;return t*t+n*n}manhattanDistanceTo(e){return Math.abs(this.x-e.x)+Math.abs(this.y-e.y)}setLength(e){return this.normalize().multiplyScalar(e)}lerp(e,t){return this.x+=(e.x-this.x)*t,this.y+=(e.y-this.y)*t,this}lerpVectors(e,t,n){return this.x=e.x+(t.x-e.x)*n,this.y=e.y+(t.y-e.y)*n,this}equals(e){return e.x===this.x&&e.y===this.y}fromArray(e,t=0){return this.x=e[t],this.y=e[t+1],this}toArray(e=[],t=0){return e[t]=this.x,e[t+1]=this.y,e}fromBufferAttribute(e,t){return this.x=e.getX(t),this.y=e.getY(t),this}rotateAround(e,t){let n=Math.cos(t),r=Math.sin(t),i=this.x-e.x,a=this.y-e.y;return this.x=i*n-a*r+e.x,this.y=i*r+a*n+e.y,this}random(){return this.x=Math.random(),this.y=Math.random(),this}*[Symbol.iterator](){yield this.x,yield this.y}},Ja=class{constructor(e=0,t=0,n=0,r=1){this.isQuaternion=!0,this._x=e,this._y=t,this._z=n,this._w=r}static slerpFlat(e,t,n,r,i,a,o){let s=n[r+0],c=n[r+1],l=n[r+2],u=n[r+3],d=i[a+0],f=i[a+1],p=i[a+2],m=i[a+3];if(u!==m||s!==d||c!==f||l!==p){let e=s*d+c*f+l*p+u*m;e<0&&(d=-d,f=-f,p=-p,m=-m,e=-e);let t=1-o;if(e<.9995){let n=Math.acos(e),r=Math.sin(n);t=Math.sin(t*n)/r,o=Math.sin(o*n)/r,s=s*t+d*o,c=c*t+f*o,l=l*t+p*o,u=u*t+m*o}else{s=s*t+d*o,c=c*t+f*o,l=l*t+p*o,u=u*t+m*o;let e=1/Math.sqrt(s*s+c*c+l*l+u*u);s*=e,c*=e,l*=e,u*=e}}e[t]=s,e[t+1]=c,e[t+2]=l,e[t+3]=u}static multiplyQuaternionsFlat(e,t,n,r,i,a){let o=n[r],s=n[r+1],c=n[r+2],l=n[r+3],u=i[a],d=i[a+1],f=i[a+2],p=i[a+3];return e[t]=o*p+l*u+s*f-c*d,e[t+1]=s*p+l*d+c*u-o*f,e[t+2]=c*p+l*f+o*d-s*u,e[t+3]=l*p-o*u-s*d-c*f,e}get x(){return this._x}set x(e){this._x=e,this._onChangeCallback()}get y(){return this._y}set y(e){this._y=e,this._onChangeCallback()}get z(){return this._z}set z(e){this._z=e,this._onChangeCallback()}get w(){return this._w}set w(e){this._w=e,this._onChangeCallback()}set(e,t,n,r){return this._x=e,this._y=t,this._z=n,this._w=r,this._onChangeCallback(),this}clone(){return new this.constructor(this._x,this._y,this._z,this._w)}copy(e){return this._x=e.x,this._y=e.y,this._z=e.z,this._w=e.w,this._onChangeCallback(),this}setFromEuler(e,t=!0){let n=e._x,r=e._y,i=e._z,a=e._order,o=Math.cos,s=Math.sin,c=o(n/2),l=o(r/2),u=o(i/2),d=s(n/2),f=s(r/2),p=s(i/2);switch(a){case`XYZ`:this._x=d*l*u+c*f*p,this._y=c*f*u-d*l*p,this._z=c*l*p+d*f*u,this._w=c*l*u-d*f*p;break;case`YXZ`:this._x=d*l*u+c*f*p,this._y=c*f*u-d*l*p,this._z=c*l*p-d*f*u,this._w=c*l*u+d*f*p;break;case`ZXY`:this._x=d*l*u-c*f*p,this._y=c*f*u+d*l*p,this._z=c*l*p+d*f*u,this._w=c*l*u-d*f*p;break;case`ZYX`:this._x=d*l*u-c*f*p,this._y=c*f*u+d*l*p,this._z=c*l*p-d*f*u,this._w=c*l*u+d*f*p;break;case`YZX`:this._x=d*l*u+c*f*p,this._y=c*f*u+d*l*p,this._z=c*l*p-d*f*u,this._w=c*l*u-d*f*p;break;case`XZY`:this._x=d*l*u-c*f*p,this._y=c*f*u-d*l*p,this._z=c*l*p+d*f*u,this._w=c*l*u+d*f*p;break;default:K(`Quaternion: .setFromEuler() encountered an unknown order: `+a)}return t===!0&&this._onChangeCallback(),this}setFromAxisAngle(e,t){let n=t/2,r=Math.sin(n);return this._x=e.x*r,this._y=e.y*r,this._z=e.z*r,this._w=Math.cos(n),this._onChangeCallback(),this}setFromRotationMatrix(e){let t=e.elements,n=t[0],r=t[4],i=t[8],a=t[1],o=t[5],s=t[9],c=t[2],l=t[6],u=t[10],d=n+o+u;if(d>0){let e=.5/Math.sqrt(d+1);this._w=.25/e,this._x=(l-s)*e,this._y=(i-c)*e,this._z=(a-r)*e}else if(n>o&&n>u){let e=2*Math.sqrt(1+n-o-u);this._w=(l-s)/e,this._x=.25*e,this._y=(r+a)/e,this._z=(i+c)/e}else if(o>u){let e=2*Math.sqrt(1+o-n-u);this._w=(i-c)/e,this._x=(r+a)/e,this._y=.25*e,this._z=(s+l)/e}else{let e=2*Math.sqrt(1+u-n-o);this._w=(a-r)/e,this._x=(i+c)/e,this._y=(s+l)/e,this._z=.25*e}return this._onChangeCallback(),this}setFromUnitVectors(e,t){let n=e.dot(t)+1;return n<1e-8?(n=0,Math.abs(e.x)>Math.abs(e.z)?(this._x=-e.y,this._y=e.x,this._z=0,this._w=n):(this._x=0,this._y=-e.z,this._z=e.y,this._w=n)):(this._x=e.y*t.z-e.z*t.y,this._y=e.z*t.x-e.x*t.z,this._z=e.x*t.y-e.y*t.x,this._w=n),this.normalize()}angleTo(e){return 2*Math.acos(Math.abs(J(this.dot(e),-1,1)))}rotateTowards(e,t){let n=this.angleTo(e);if(n===0)return this;let r=Math.min(1,t/n);return this.slerp(e,r),this}identity(){return this.set(0,0,0,1)}invert(){return this.conjugate()}conjugate(){return this._x*=-1,this._y*=-1,this._z*=-1,this._onChangeCallback(),this}dot(e){return this._x*e._x+this._y*e._y+this._z*e._z+this._w*e._w}lengthSq(){return this._x*this._x+this._y*this._y+this._z*this._z+this._w*this._w}length(){return Math.sqrt(this._x*this._x+this._y*this._y+this._z*this._z+this._w*this._w)}normalize(){let e=this.length();return e===0?(this._x=0,this._y=0,this._z=0,this._w=1):(e=1/e,this._x*=e,this._y*=e,this._z*=e,this._w*=e),this._onChangeCallback(),this}multiply(e){return this.multiplyQuaternions(this,e)}premultiply(e){return this.multiplyQuaternions(e,this)}multiplyQuaternions(e,t){let n=e._x,r=e._y,i=e._z,a=e._w,o=t._x,s=t._y,c=t._z,l=t._w;return this._x=n*l+a*o+r*c-i*s,this._y=r*l+a*s+i*o-n*c,this._z=i*l+a*c+n*s-r*o,this._w=a*l-n*o-r*s-i*c,this._onChangeCallback(),this}slerp(e,t){let n=e._x,r=e._y,i=e._z,a=e._w,o=this.dot(e);o<0&&(n=-n,r=-r,i=-i,a=-a,o=-o);let s=1-t;if(o<.9995){let e=Math.acos(o),c=Math.sin(e);s=Math.sin(s*e)/c,t=Math.sin(t*e)/c,this._x=this._x*s+n*t,this._y=this._y*s+r*t,this._z=this._z*s+i*t,this._w=this._w*s+a*t,this._onChangeCallback()}else this._x=this._x*s+n*t,this._y=this._y*s+r*t,this._z=this._z*s+i*t,this._w=this._w*s+a*t,this.normalize();return this}slerpQuaternions(e,t,n){return this.copy(e).slerp(t,n)}random(){let e=2*Math.PI*Math.random(),t=2*Math.PI*Math.random(),n=Math.random(),r=Math.sqrt(1-n),i=Math.sqrt(n);return this.set(r*Math.sin(e),r*Math.cos(e),i*Math.sin(t),i*Math.cos(t))}equals(e){return e._x===this._x&&e._y===this._y&&e._z===this._z&&e._w===this._w}fromArray(e,t=0){return this._x=e[t],this._y=e[t+1],this._z=e[t+2],this._w=e[t+3],this._onChangeCallback(),this}toArray(e=[],t=0){return e[t]=this._x,e[t+1]=this._y,e[t+2]=this._z,e[t+3]=this._w,e}fromBufferAttribute(e,t){return this._x=e.getX(t),this._y=e.getY(t),this._z=e.getZ(t),this._w=e.getW(t),this._onChangeCallback(),this}toJSON(){return this.toArray()}_onChange(e){return this._onChangeCallback=e,this}_onChangeCallback(){}*[Symbol.iterator](){yield this._x,yield this._y,yield this._z,yield this._w}},X=class{static{this.prototype.isVector3=!0}constructor(e=0,t=0,n=0){this.x=e,this.y=t,this.z=n}set(e,t,n){return n===void 0&&(n=this.z),this.x=e,this.y=t,this.z=n,this}setScalar(e){return this.x=e,this.y=e,this.z=e,this}setX(e){return this.x=e,this}setY(e){return this.y=e,this}setZ(e){return this.z=e,this}setComponent(e,t){switch(e){case 0:this.x=t;break;case 1:this.y=t;break;case 2:this.z=t;break;default:throw Error(`THREE.Vector3: index is out of range: `+e)}return this}getComponent(e){switch(e){case 0:return this.x;case 1:return this.y;case 2:return this.z;default:throw Error(`THREE.Vector3: index is out of range: `+e)}}clone(){return new this.constructor(this.x,this.y,this.z)}copy(e){return this.x=e.x,this.y=e.y,this.z=e.z,this}add(e){return this.x+=e.x,this.y+=e.y,this.z+=e.z,this}addScalar(e){return this.x+=e,this.y+=e,this.z+=e,this}addVectors(e,t){return this.x=e.x+t.x,this.y=e.y+t.y,this.z=e.z+t.z,this}addScaledVector(e,t){return this.x+=e.x*t,this.y+=e.y*t,this.z+=e.z*t,this}sub(e){return this.x-=e.x,this.y-=e.y,this.z-=e.z,this}subScalar(e){return this.x-=e,this.y-=e,this.z-=e,this}subVectors(e,t){return this.x=e.x-t.x,this.y=e.y-t.y,this.z=e.z-t.z,this}multiply(e){return this.x*=e.x,this.y*=e.y,this.z*=e.z,this}multiplyScalar(e){return this.x*=e,this.y*=e,this.z*=e,this}multiplyVectors(e,t){return this.x=e.x*t.x,this.y=e.y*t.y,this.z=e.z*t.z,this}applyEuler(e){return this.applyQuaternion(Xa.setFromEuler(e))}applyAxisAngle(e,t){return this.applyQuaternion(Xa.setFromAxisAngle(e,t))}applyMatrix3(e){let t=this.x,n=this.y,r=this.z,i=e.elements;return this.x=i[0]*t+i[3]*n+i[6]*r,this.y=i[1]*t+i[4]*n+i[7]*r,this.z=i[2]*t+i[5]*n+i[8]*r,this}applyNormalMatrix(e){return this.applyMatrix3(e).normalize()}applyMatrix4(e){let t=this.x,n=this.y,r=this.z,i=e.elements,a=1/(i[3]*t+i[7]*n+i[11]*r+i[15]);return this.x=(i[0]*t+i[4]*n+i[8]*r+i[12])*a,this.y=(i[1]*t+i[5]*n+i[9]*r+i[13])*a,this.z=(i[2]*t+i[6]*n+i[10]*r+i[14])*a,this}applyQuaternion(e){let t=this.x,n=this.y,r=this.z,i=e.x,a=e.y,o=e.z,s=e.w,c=2*(a*r-o*n),l=2*(o*t-i*r),u=2*(i*n-a*t);return this.x=t+s*c+a*u-o*l,this.y=n+s*l+o*c-i*u,this.z=r+s*u+i*l-a*c,this}project(e){return this.applyMatrix4(e.matrixWorldInverse).applyMatrix4(e.projectionMatrix)}unproject(e){return this.applyMatrix4(e.projectionMatrixInverse).applyMatrix4(e.matrixWorld)}transformDirection(e){let t=this.x,n=this.y,r=this.z,i=e.elements;return this.x=i[0]*t+i[4]*n+i[8]*r,this.y=i[1]*t+i[5]*n+i[9]*r,this.z=i[2]*t+i[6]*n+i[10]*r,this.normalize()}divide(e){return this.x/=e.x,this.y/=e.y,this.z/=e.z,this}divideScalar(e){return this.multiplyScalar(1/e)}min(e){return this.x=Math.min(this.x,e.x),this.y=Math.min(this.y,e.y),this.z=Math.min(this.z,e.z),this}max(e){return this.x=Math.max(this.x,e.x),this.y=Math.max(this.y,e.y),this.z=Math.max(this.z,e.z),this}clamp(e,t){return this.x=J(this.x,e.x,t.x),this.y=J(this.y,e.y,t.y),this.z=J(this.z,e.z,t.z),this}clampScalar(e,t){return this.x=J(this.x,e,t),this.y=J(this.y,e,t),this.z=J(this.z,e,t),this}clampLength(e,t){let n=this.length();return this.divideScalar(n||1).multiplyScalar(J(n,e,t))}floor(){return this.x=Math.floor(this.x),this.y=Math.floor(this.y),this.z=Math.floor(this.z),this}ceil(){return this.x=Math.ceil(this.x),this.y=Math.ceil(this.y),this.z=Math.ceil(this.z),this}round(){return this.x=Math.round(this.x),this.y=Math.round(this.y),this.z=Math.round(this.z),this}roundToZero(){return this.x=Math.trunc(this.x),this.y=Math.trunc(this.y),this.z=Math.trunc(this.z),this}negate(){return this.x=-this.x,this.y=-this.y,this.z=-this.z,this}dot(e){return this.x*e.x+this.y*e.y+this.z*e.z}lengthSq(){return this.x*this.x+this.y*this.y+this.z*this.z}length(){return Math.sqrt(this.x*this.x+this.y*this.y+this.z*this.z)}manhattanLength(){return Math.abs(this.x)+Math.abs(this.y)+Math.abs(this.z)}normalize(){return this.divideScalar(this.length()||1)}setLength(e){return this.normalize().multiplyScalar(e)}lerp(e,t){return this.x+=(e.x-this.x)*t,this.y+=(e.y-this.y)*t,this.z+=(e.z-this.z)*t,this}lerpVectors(e,t,n){return this.x=e.x+(t.x-e.x)*n,this.y=e.y+(t.y-e.y)*n,this.z=e.z+(t.z-e.z)*n,this}cross(e){return this.crossVectors(this,e)}crossVectors(e,t){let n=e.x,r=e.y,i=e.z,a=t.x,o=t.y,s=t.z;return this.x=r*s-i*o,this.y=i*a-n*s,this.z=n*o-r*a,this}projectOnVector(e){let t=e.lengthSq();if(t===0)return this.set(0,0,0);let n=e.dot(this)/t;return this.copy(e).multiplyScalar(n)}projectOnPlane(e){return Ya.copy(this).projectOnVector(e),this.sub(Ya)}reflect(e){return this.sub(Ya.copy(e).multiplyScalar(2*this.dot(e)))}angleTo(e){let t=Math.sqrt(this.lengthSq()*e.lengthSq());if(t===0)return Math.PI/2;let n=this.dot(e)/t;return Math.acos(J(n,-1,1))}distanceTo(e){return Math.sqrt(this.distanceToSquared(e))}distanceToSquared(e){let t=this.x-e.x,n=this.y-e.y,r=this.z-e.z;return t*t+n*n+r*r}manhattanDistanceTo(e){return Math.abs(this.x-e.x)+Math.abs(this.y-e.y)+Math.abs(this.z-e.z)}setFromSpherical(e){return this.setFromSphericalCoords(e.radius,e.phi,e.theta)}setFromSphericalCoords(e,t,n){let r=Math.sin(t)*e;return this.x=r*Math.sin(n),this.y=Math.cos(t)*e,this.z=r*Math.cos(n),this}setFromCylindrical(e){return this.setFromCylindricalCoords(e.radius,e.theta,e.y)}setFromCylindricalCoords(e,t,n){return this.x=e*Math.sin(t),this.y=n,this.z=e*Math.cos(t),this}setFromMatrixPosition(e){let t=e.elements;return this.x=t[12],this.y=t[13],this.z=t[14],this}setFromMatrixScale(e){let t=this.setFromMatrixColumn(e,0).length(),n=this.setFromMatrixColumn(e,1).length(),r=this.setFromMatrixColumn(e,2).length();return this.x=t,this.y=n,this.z=r,this}setFromMatrixColumn(e,t){return this.fromArray(e.elements,t*4)}setFromMatrix3Column(e,t){return this.fromArray(e.elements,t*3)}setFromEuler(e){return this.x=e._x,this.y=e._y,this.z=e._z,this}setFromColor(e){return this.x=e.r,this.y=e.g,this.z=e.b,this}equals(e){return e.x===this.x&&e.y===this.y&&e.z===this.z}fromArray(e,t=0){return this.x=e[t],this.y=e[t+1],this.z=e[t+2],this}toArray(e=[],t=0){return e[t]=this.x,e[t+1]=this.y,e[t+2]=this.z,e}fromBufferAttribute(e,t){return this.x=e.getX(t),this.y=e.getY(t),this.z=e.getZ(t),this}random(){return this.x=Math.random(),this.y=Math.random(),this.z=Math.random(),this}randomDirection(){let e=Math.random()*Math.PI*2,t=Math.random()*2-1,n=Math.sqrt(1-t*t);return this.x=n*Math.cos(e),this.y=t,this.z=n*Math.sin(e),this}*[Symbol.iterator](){yield this.x,yield this.y,yield this.z}},Ya=new X,Xa=new Ja,Z=class{static{this.prototype.isMatrix3=!0}constructor(e,t,n,r,i,a,o,s,c){this.elements=[1,0,0,0,1,0,0,0,1],e!==void 0&&this.set(e,t,n,r,i,a,o,s,c)}set(e,t,n,r,i,a,o,s,c){let l=this.elements;return l[0]=e,l[1]=r,l[2]=o,l[3]=t,l[4]=i,l[5]=s,l[6]=n,l[7]=a,l[8]=c,this}identity(){return this.set(1,0,0,0,1,0,0,0,1),this}copy(e){let t=this.elements,n=e.elements;return t[0]=n[0],t[1]=n[1],t[2]=n[2],t[3]=n[3],t[4]=n[4],t[5]=n[5],t[6]=n[6],t[7]=n[7],t[8]=n[8],this}extractBasis(e,t,n){return e.setFromMatrix3Column(this,0),t.setFromMatrix3Column(this,1),n.setFromMatrix3Column(this,2),this}setFromMatrix4(e){let t=e.elements;return this.set(t[0],t[4],t[8],t[1],t[5],t[9],t[2],t[6],t[10]),this}multiply(e){return this.multiplyMatrices(this,e)}premultiply(e){return this.multiplyMatrices(e,this)}multiplyMatrices(e,t){let n=e.elements,r=t.elements,i=this.elements,a=n[0],o=n[3],s=n[6],c=n[1],l=n[4],u=n[7],d=n[2],f=n[5],p=n[8],m=r[0],h=r[3],g=r[6],_=r[1],v=r[4],y=r[7],b=r[2],x=r[5],S=r[8];return i[0]=a*m+o*_+s*b,i[3]=a*h+o*v+s*x,i[6]=a*g+o*y+s*S,i[1]=c*m+l*_+u*b,i[4]=c*h+l*v+u*x,i[7]=c*g+l*y+u*S,i[2]=d*m+f*_+p*b,i[5]=d*h+f*v+p*x,i[8]=d*g+f*y+p*S,this}multiplyScalar(e){let t=this.elements;return t[0]*=e,t[3]*=e,t[6]*=e,t[1]*=e,t[4]*=e,t[7]*=e,t[2]*=e,t[5]*=e,t[8]*=e,this}determinant(){let e=this.elements,t=e[0],n=e[1],r=e[2],i=e[3],a=e[4],o=e[5],s=e[6],c=e[7],l=e[8];return t*a*l-t*o*c-n*i*l+n*o*s+r*i*c-r*a*s}invert(){let e=this.elements,t=e[0],n=e[1],r=e[2],i=e[3],a=e[4],o=e[5],s=e[6],c=e[7],l=e[8],u=l*a-o*c,d=o*s-l*i,f=c*i-a*s,p=t*u+n*d+r*f;if(p===0)return this.set(0,0,0,0,0,0,0,0,0);let m=1/p;return e[0]=u*m,e[1]=(r*c-l*n)*m,e[2]=(o*n-r*a)*m,e[3]=d*m,e[4]=(l*t-r*s)*m,e[5]=(r*i-o*t)*m,e[6]=f*m,e[7]=(n*s-c*t)*m,e[8]=(a*t-n*i)*m,this}transpose(){let e,t=this.elements;return e=t[1],t[1]=t[3],t[3]=e,e=t[2],t[2]=t[6],t[6]=e,e=t[5],t[5]=t[7],t[7]=e,this}getNormalMatrix(e){return this.setFromMatrix4(e).invert().transpose()}transposeIntoArray(e){let t=this.elements;return e[0]=t[0],e[1]=t[3],e[2]=t[6],e[3]=t[1],e[4]=t[4],e[5]=t[7],e[6]=t[2],e[7]=t[5],e[8]=t[8],this}setUvTransform(e,t,n,r,i,a,o){let s=Math.cos(i),c=Math.sin(i);return this.set(n*s,n*c,-n*(s*a+c*o)+a+e,-r*c,r*s,-r*(-c*a+s*o)+o+t,0,0,1),this}scale(e,t){return _a(`Matrix3: .scale() is deprecated. Use .makeScale() instead.`),this.premultiply(Za.makeScale(e,t)),this}rotate(e){return _a(`Matrix3: .rotate() is deprecated. Use .makeRotation() instead.`),this.premultiply(Za.makeRotation(-e)),this}translate(e,t){return _a(`Matrix3: .translate() is deprecated. Use .makeTranslation() instead.`),this.premultiply(Za.makeTranslation(e,t)),this}makeTranslation(e,t){return e.isVector2?this.set(1,0,e.x,0,1,e.y,0,0,1):this.set(1,0,e,0,1,t,0,0,1),this}makeRotation(e){let t=Math.cos(e),n=Math.sin(e);return this.set(t,-n,0,n,t,0,0,0,1),this}makeScale(e,t){return this.set(e,0,0,0,t,0,0,0,1),this}equals(e){let t=this.elements,n=e.elements;for(let e=0;e<9;e++)if(t[e]!==n[e])return!1;return!0}fromArray(e,t=0){for(let n=0;n<9;n++)this.elements[n]=e[n+t];return this}toArray(e=[],t=0){let n=this.elements;return e[t]=n[0],e[t+1]=n[1],e[t+2]=n[2],e[t+3]=n[3],e[t+4]=n[4],e[t+5]=n[5],e[t+6]=n[6],e[t+7]=n[7],e[t+8]=n[8],e}clone(){return new this.constructor().fromArray(this.elements)}},Za=new Z,Qa=new Z().set(.4123908,.3575843,.1804808,.212639,.7151687,.0721923,.0193308,.1191948,.9505322),$a=new Z().set(3.2409699,-1.5373832,-.4986108,-.9692436,1.8759675,.0415551,.0556301,-.203977,1.0569715);function eo(){let e={enabled:!0,workingColorSpace:ia,spaces:{},convert:function(e,t,n){return this.enabled===!1||t===n||!t||!n||(this.spaces[t].transfer===`srgb`&&(e.r=no(e.r),e.g=no(e.g),e.b=no(e.b)),this.spaces[t].primaries!==this.spaces[n].primaries&&(e.applyMatrix3(this.spaces[t].toXYZ),e.applyMatrix3(this.spaces[n].fromXYZ)),this.spaces[n].transfer===`srgb`&&(e.r=ro(e.r),e.g=ro(e.g),e.b=ro(e.b))),e},workingToColorSpace:function(e,t){return this.convert(e,this.workingColorSpace,t)},colorSpaceToWorking:function(e,t){return this.convert(e,t,this.workingColorSpace)},getPrimaries:function(e){return this.spaces[e].primaries},getTransfer:function(e){return e===``?aa:this.spaces[e].transfer},getToneMappingMode:function(e){return this.spaces[e].outputColorSpaceConfig.toneMappingMode||`standard`},getLuminanceCoefficients:function(e,t=this.workingColorSpace){return e.fromArray(this.spaces[t].luminanceCoefficients)},define:function(e){Object.assign(this.spaces,e)},_getMatrix:function(e,t,n){return e.copy(this.spaces[n].fromXYZ).multiply(this.spaces[t].toXYZ)},_getDrawingBufferColorSpace:function(e){return this.spaces[e].outputColorSpaceConfig.drawingBufferColorSpace},_getUnpackColorSpace:function(e=this.workingColorSpace){return this.spaces[e].workingColorSpaceConfig.unpackColorSpace}},t=[.64,.33,.3,.6,.15,.06],n=[.2126,.7152,.0722],r=[.3127,.329];return e.define({[ia]:{primaries:t,whitePoint:r,transfer:aa,toXYZ:Qa,fromXYZ:$a,luminanceCoefficients:n,workingColorSpaceConfig:{unpackColorSpace:ra},outputColorSpaceConfig:{drawingBufferColorSpace:ra}},[ra]:{primaries:t,whitePoint:r,transfer:oa,toXYZ:Qa,fromXYZ:$a,luminanceCoefficients:n,outputColorSpaceConfig:{drawingBufferColorSpace:ra}}}),e}var to=eo();function no(e){return e<.04045?e*.0773993808:(e*.9478672986+.0521327014)**2.4}function ro(e){return e<.0031308?e*12.92:1.055*e**.41666-.055}var io,ao=class{static getDataURL(e,t=`image/png`){if(/^data:/i.test(e.src)||typeof HTMLCanvasElement>`u`)return e.src;let n;if(e instanceof HTMLCanvasElement)n=e;else{io===void 0&&(io=fa(`canvas`)),io.width=e.width,io.height=e.height;let t=io.getContext(`2d`);e instanceof ImageData?t.putImageData(e,0,0):t.drawImage(e,0,0,e.width,e.height),n=io}return n.toDataURL(t)}static sRGBToLinear(e){if(typeof HTMLImageElement<`u`&&e instanceof HTMLImageElement||typeof HTMLCanvasElement<`u`&&e instanceof HTMLCanvasElement||typeof ImageBitmap<`u`&&e instanceof ImageBitmap){let t=fa(`canvas`);t.width=e.width,t.height=e.height;let n=t.getContext(`2d`);n.drawImage(e,0,0,e.width,e.height);let r=n.getImageData(0,0,e.width,e.height),i=r.data;for(let e=0;e<i.length;e++)i[e]=no(i[e]/255)*255;return n.putImageData(r,0,0),t}if(e.data){let t=e.data.slice(0);for(let e=0;e<t.length;e++)t instanceof Uint8Array||t instanceof Uint8ClampedArray?t[e]=Math.floor(no(t[e]/255)*255):t[e]=no(t[e]);return{data:t,width:e.width,height:e.height}}return K(`ImageUtils.sRGBToLinear(): Unsupported image type. No color space conversion applied.`),e}},oo=0,so=class{constructor(e=null){this.isTextureSource=!0,Object.defineProperty(this,"id",{value:oo++}),this.uuid=Ta(),this.data=e,this.dataReady=!0,this.version=0}getSize(e){let t=this.data;return typeof HTMLVideoElement<`u`&&t instanceof HTMLVideoElement?e.set(t.videoWidth,t.videoHeight,0):typeof VideoFrame<`u`&&t instanceof VideoFrame?e.set(t.displayWidth,t.displayHeight,0):t===null?e.set(0,0,0):e.set(t.width||0,t.height||0,t.depth||0),e}set needsUpdate(e){e===!0&&this.version++}toJSON(e){let t=e===void 0||typeof e==`string`;if(!t&&e.images[this.uuid]!==void 0)return e.images[this.uuid];let n={uuid:this.uuid,url:``},r=this.data;if(r!==null){let e;if(Array.isArray(r)){e=[];for(let t=0,n=r.length;t<n;t++)r[t].isDataTexture?e.push(co(r[t].image)):e.push(co(r[t]))}else e=co(r);n.url=e}return t||(e.images[this.uuid]=n),n}};function co(e){return typeof HTMLImageElement<`u`&&e instanceof HTMLImageElement||typeof HTMLCanvasElement<`u`&&e instanceof HTMLCanvasElement||typeof ImageBitmap<`u`&&e instanceof ImageBitmap?ao.getDataURL(e):e.data?{data:Array.from(e.data),width:e.width,height:e.height,type:e.data.constructor.name}:(K(`Texture: Unable to serialize Texture.`),{})}var lo=0,uo=new X,fo=class e extends ba{constructor(t=e.DEFAULT_IMAGE,n=e.DEFAULT_MAPPING,r=Ir,i=Ir,a=Vr,o=Ur,s=ai,c=Wr,l=e.DEFAULT_ANISOTROPY,u=``){super(),this.isTexture=!0,Object.defineProperty(this,"id",{value:lo++}),this.uuid=Ta(),this.name=``,this.source=new so(t),this.mipmaps=[],this.mapping=n,this.channel=0,this.wrapS=r,this.wrapT=i,this.magFilter=a,this.minFilter=o,this.anisotropy=l,this.format=s,this.internalFormat=null,this.type=c,this.offset=new Y(0,0),this.repeat=new Y(1,1),this.center=new Y(0,0),this.rotation=0,this.matrixAutoUpdate=!0,this.matrix=new Z,this.generateMipmaps=!0,this.mipmapsAutoUpdate=!0,this.premultiplyAlpha=!1,this.flipY=!0,this.unpackAlignment=4,this.colorSpace=u,this.userData={},this.updateRanges=[],this.version=0,this.onUpdate=null,this.renderTarget=null,this.isRenderTargetTexture=!1,this.isArrayTexture=!!(t&&t.depth&&t.depth>1),this.pmremVersion=0,this.isPMREMTexture=!1,this.normalized=!1}get width(){return this.source.getSize(uo).x}get height(){return this.source.getSize(uo).y}get depth(){return this.source.getSize(uo).z}get image(){return this.source.data}set image(e){this.source.data=e}updateMatrix(){this.matrix.setUvTransform(this.offset.x,this.offset.y,this.repeat.x,this.repeat.y,this.rotation,this.center.x,this.center.y)}addUpdateRange(e,t){this.updateRanges.push({start:e,count:t})}clearUpdateRanges(){this.updateRanges.length=0}clone(){return new this.constructor().copy(this)}copy(e){return this.name=e.name,this.source=e.source,this.mipmaps=e.mipmaps.slice(0),this.mapping=e.mapping,this.channel=e.channel,this.wrapS=e.wrapS,this.wrapT=e.wrapT,this.magFilter=e.magFilter,this.minFilter=e.minFilter,this.anisotropy=e.anisotropy,this.format=e.format,this.internalFormat=e.internalFormat,this.type=e.type,this.normalized=e.normalized,this.offset.copy(e.offset),this.repeat.copy(e.repeat),this.center.copy(e.center),this.rotation=e.rotation,this.matrixAutoUpdate=e.matrixAutoUpdate,this.matrix.copy(e.matrix),this.generateMipmaps=e.generateMipmaps,this.mipmapsAutoUpdate=e.mipmapsAutoUpdate,this.premultiplyAlpha=e.premultiplyAlpha,this.flipY=e.flipY,this.unpackAlignment=e.unpackAlignment,this.colorSpace=e.colorSpace,this.renderTarget=e.renderTarget,this.isRenderTargetTexture=e.isRenderTargetTexture,this.isPMREMTexture=e.isPMREMTexture,this.isArrayTexture=e.isArrayTexture,this.userData=JSON.parse(JSON.stringify(e.userData)),this.needsUpdate=!0,this}setValues(e){for(let t in e){let n=e[t];if(n===void 0){K(`Texture.setValues(): parameter '${t}' has value of undefined.`);continue}let r=this[t];r===void 0?K(`Texture.setValues(): property '${t}' does not exist.`):r&&n&&r.isVector2&&n.isVector2||r&&n&&r.isVector3&&n.isVector3||r&&n&&r.isMatrix3&&n.isMatrix3?r.copy(n):this[t]=n}}toJSON(e){let t=e===void 0||typeof e==`string`;if(!t&&e.textures[this.uuid]!==void 0)return e.textures[this.uuid];let n={metadata:{version:4.7,type:`Texture`,generator:`Texture.toJSON`},uuid:this.uuid,name:this.name,image:this.source.toJSON(e).uuid,mapping:this.mapping,channel:this.channel,repeat:[this.repeat.x,this.repeat.y],offset:[this.offset.x,this.offset.y],center:[this.center.x,this.center.y],rotation:this.rotation,wrap:[this.wrapS,this.wrapT],format:this.format,internalFormat:this.internalFormat,type:this.type,normalized:this.normalized,colorSpace:this.colorSpace,minFilter:this.minFilter,magFilter:this.magFilter,anisotropy:this.anisotropy,flipY:this.flipY,generateMipmaps:this.generateMipmaps,mipmapsAutoUpdate:this.mipmapsAutoUpdate,premultiplyAlpha:this.premultiplyAlpha,unpackAlignment:this.unpackAlignment};return Object.keys(this.userData).length>0&&(n.userData=this.userData),t||(e.textures[this.uuid]=n),n}dispose(){this.dispatchEvent({type:`dispose`})}transformUv(e){if(this.mapping!==300)return e;if(e.applyMatrix3(this.matrix),e.x<0||e.x>1)switch(this.wrapS){case Fr:e.x-=Math.floor(e.x);break;case Ir:e.x=e.x<0?0:1;break;case Lr:Math.abs(Math.floor(e.x)%2)===1?e.x=Math.ceil(e.x)-e.x:e.x-=Math.floor(e.x)}if(e.y<0||e.y>1)switch(this.wrapT){case Fr:e.y-=Math.floor(e.y);break;case Ir:e.y=e.y<0?0:1;break;case Lr:Math.abs(Math.floor(e.y)%2)===1?e.y=Math.ceil(e.y)-e.y:e.y-=Math.floor(e.y)}return this.flipY&&(e.y=1-e.y),e}set needsUpdate(e){e===!0&&(this.version++,this.source.needsUpdate=!0)}set needsPMREMUpdate(e){e===!0&&this.pmremVersion++}};fo.DEFAULT_IMAGE=null,fo.DEFAULT_MAPPING=300,fo.DEFAULT_ANISOTROPY=1;var po=class{static{this.prototype.isVector4=!0}constructor(e=0,t=0,n=0,r=1){this.x=e,this.y=t,this.z=n,this.w=r}get width(){return this.z}set width(e){this.z=e}get height(){return this.w}set height(e){this.w=e}set(e,t,n,r){return this.x=e,this.y=t,this.z=n,this.w=r,this}setScalar(e){return this.x=e,this.y=e,this.z=e,this.w=e,this}setX(e){return this.x=e,this}setY(e){return this.y=e,this}setZ(e){return this.z=e,this}setW(e){return this.w=e,this}setComponent(e,t){switch(e){case 0:this.x=t;break;case 1:this.y=t;break;case 2:this.z=t;break;case 3:this.w=t;break;default:throw Error(`THREE.Vector4: index is out of range: `+e)}return this}getComponent(e){switch(e){case 0:return this.x;case 1:return this.y;case 2:return this.z;case 3:return this.w;default:throw Error(`THREE.Vector4: index is out of range: `+e)}}clone(){return new this.constructor(this.x,this.y,this.z,this.w)}copy(e){return this.x=e.x,this.y=e.y,this.z=e.z,this.w=e.w===void 0?1:e.w,this}add(e){return this.x+=e.x,this.y+=e.y,this.z+=e.z,this.w+=e.w,this}addScalar(e){return this.x+=e,this.y+=e,this.z+=e,this.w+=e,this}addVectors(e,t){return this.x=e.x+t.x,this.y=e.y+t.y,this.z=e.z+t.z,this.w=e.w+t.w,this}addScaledVector(e,t){return this.x+=e.x*t,this.y+=e.y*t,this.z+=e.z*t,this.w+=e.w*t,this}sub(e){return this.x-=e.x,this.y-=e.y,this.z-=e.z,this.w-=e.w,this}subScalar(e){return this.x-=e,this.y-=e,this.z-=e,this.w-=e,this}subVectors(e,t){return this.x=e.x-t.x,this.y=e.y-t.y,this.z=e.z-t.z,this.w=e.w-t.w,this}multiply(e){return this.x*=e.x,this.y*=e.y,this.z*=e.z,this.w*=e.w,this}multiplyScalar(e){return this.x*=e,this.y*=e,this.z*=e,this.w*=e,this}applyMatrix4(e){let t=this.x,n=this.y,r=this.z,i=this.w,a=e.elements;return this.x=a[0]*t+a[4]*n+a[8]*r+a[12]*i,this.y=a[1]*t+a[5]*n+a[9]*r+a[13]*i,this.z=a[2]*t+a[6]*n+a[10]*r+a[14]*i,this.w=a[3]*t+a[7]*n+a[11]*r+a[15]*i,this}divide(e){return this.x/=e.x,this.y/=e.y,this.z/=e.z,this.w/=e.w,this}divideScalar(e){return this.multiplyScalar(1/e)}setAxisAngleFromQuaternion(e){this.w=2*Math.acos(e.w);let t=Math.sqrt(1-e.w*e.w);return t<1e-4?(this.x=1,this.y=0,this.z=0):(this.x=e.x/t,this.y=e.y/t,this.z=e.z/t),this}setAxisAngleFromRotationMatrix(e){let t,n,r,i,a=.01,o=.1,s=e.elements,c=s[0],l=s[4],u=s[8],d=s[1],f=s[5],p=s[9],m=s[2],h=s[6],g=s[10];if(Math.abs(l-d)<a&&Math.abs(u-m)<a&&Math.abs(p-h)<a){if(Math.abs(l+d)<o&&Math.abs(u+m)<o&&Math.abs(p+h)<o&&Math.abs(c+f+g-3)<o)return this.set(1,0,0,0),this;t=Math.PI;let e=(c+1)/2,s=(f+1)/2,_=(g+1)/2,v=(l+d)/4,y=(u+m)/4,b=(p+h)/4;return e>s&&e>_?e<a?(n=0,r=.707106781,i=.707106781):(n=Math.sqrt(e),r=v/n,i=y/n):s>_?s<a?(n=.707106781,r=0,i=.707106781):(r=Math.sqrt(s),n=v/r,i=b/r):_<a?(n=.707106781,r=.707106781,i=0):(i=Math.sqrt(_),n=y/i,r=b/i),this.set(n,r,i,t),this}let _=Math.sqrt((h-p)*(h-p)+(u-m)*(u-m)+(d-l)*(d-l));return Math.abs(_)<.001&&(_=1),this.x=(h-p)/_,this.y=(u-m)/_,this.z=(d-l)/_,this.w=Math.acos((c+f+g-1)/2),this}setFromMatrixPosition(e){let t=e.elements;return this.x=t[12],this.y=t[13],this.z=t[14],this.w=t[15],this}min(e){return this.x=Math.min(this.x,e.x),this.y=Math.min(this.y,e.y),this.z=Math.min(this.z,e.z),this.w=Math.min(this.w,e.w),this}max(e){return this.x=Math.max(this.x,e.x),this.y=Math.max(this.y,e.y),this.z=Math.max(this.z,e.z),this.w=Math.max(this.w,e.w),this}clamp(e,t){return this.x=J(this.x,e.x,t.x),this.y=J(this.y,e.y,t.y),this.z=J(this.z,e.z,t.z),this.w=J(this.w,e.w,t.w),this}clampScalar(e,t){return this.x=J(this.x,e,t),this.y=J(this.y,e,t),this.z=J(this.z,e,t),this.w=J(this.w,e,t),this}clampLength(e,t){let n=this.length();return this.divideScalar(n||1).multiplyScalar(J(n,e,t))}floor(){return this.x=Math.floor(this.x),this.y=Math.floor(this.y),this.z=Math.floor(this.z),this.w=Math.floor(this.w),this}ceil(){return this.x=Math.ceil(this.x),this.y=Math.ceil(this.y),this.z=Math.ceil(this.z),this.w=Math.ceil(this.w),this}round(){return this.x=Math.round(this.x),this.y=Math.round(this.y),this.z=Math.round(this.z),this.w=Math.round(this.w),this}roundToZero(){return this.x=Math.trunc(this.x),this.y=Math.trunc(this.y),this.z=Math.trunc(this.z),this.w=Math.trunc(this.w),this}negate(){return this.x=-this.x,this.y=-this.y,this.z=-this.z,this.w=-this.w,this}dot(e){return this.x*e.x+this.y*e.y+this.z*e.z+this.w*e.w}lengthSq(){return this.x*this.x+this.y*this.y+this.z*this.z+this.w*this.w}length(){return Math.sqrt(this.x*this.x+this.y*this.y+this.z*this.z+this.w*this.w)}manhattanLength(){return Math.abs(this.x)+Math.abs(this.y)+Math.abs(this.z)+Math.abs(this.w)}normalize(){return this.divideScalar(this.length()||1)}setLength(e){return this.normalize().multiplyScalar(e)}lerp(e,t){return this.x+=(e.x-this.x)*t,this.y+=(e.y-this.y)*t,this.z+=(e.z-this.z)*t,this.w+=(e.w-this.w)*t,this}lerpVectors(e,t,n){return this.x=e.x+(t.x-e.x)*n,this.y=e.y+(t.y-e.y)*n,this.z=e.z+(t.z-e.z)*n,this.w=e.w+(t.w-e.w)*n,this}equals(e){return e.x===this.x&&e.y===this.y&&e.z===this.z&&e.w===this.w}fromArray(e,t=0){return this.x=e[t],this.y=e[t+1],this.z=e[t+2],this.w=e[t+3],this}toArray(e=[],t=0){return e[t]=this.x,e[t+1]=this.y,e[t+2]=this.z,e[t+3]=this.w,e}fromBufferAttribute(e,t){return this.x=e.getX(t),this.y=e.getY(t),this.z=e.getZ(t),this.w=e.getW(t),this}random(){return this.x=Math.random(),this.y=Math.random(),this.z=Math.random(),this.w=Math.random(),this}*[Symbol.iterator](){yield this.x,yield this.y,yield this.z,yield this.w}},mo=class extends ba{constructor(e=1,t=1,n={}){super(),n=Object.assign({generateMipmaps:!1,internalFormat:null,minFilter:Vr,depthBuffer:!0,stencilBuffer:!1,resolveColorBuffer:!0,resolveDepthBuffer:!0,resolveStencilBuffer:!0,storeMultisampledColorBuffer:!0,storeMultisampledDepthBuffer:!0,storeMultisampledStencilBuffer:!0,depthTexture:null,samples:0,count:1,depth:1,multiview:!1,useArrayDepthTexture:!1},n),this.isRenderTarget=!0,this.width=e,this.height=t,this.depth=n.depth,this.scissor=new po(0,0,e,t),this.scissorTest=!1,this.viewport=new po(0,0,e,t),this.textures=[];let r=n.count;for(let i=0;i<r;i++)this.textures[i]=new fo({width:e,height:t,depth:n.depth}),this.textures[i].isRenderTargetTexture=!0,this.textures[i].renderTarget=this;this._setTextureOptions(n),this.depthBuffer=n.depthBuffer,this.stencilBuffer=n.stencilBuffer,this.resolveColorBuffer=n.resolveColorBuffer,this.resolveDepthBuffer=n.resolveDepthBuffer,this.resolveStencilBuffer=n.resolveStencilBuffer,this.storeMultisampledColorBuffer=n.storeMultisampledColorBuffer,this.storeMultisampledDepthBuffer=n.storeMultisampledDepthBuffer,this.storeMultisampledStencilBuffer=n.storeMultisampledStencilBuffer,this._depthTexture=null,this.depthTexture=n.depthTexture,this.samples=n.samples,this.multiview=n.multiview,this.useArrayDepthTexture=n.useArrayDepthTexture}_setTextureOptions(e={}){let t={minFilter:Vr,generateMipmaps:!1,flipY:!1,internalFormat:null};e.mapping!==void 0&&(t.mapping=e.mapping),e.wrapS!==void 0&&(t.wrapS=e.wrapS),e.wrapT!==void 0&&(t.wrapT=e.wrapT),e.wrapR!==void 0&&(t.wrapR=e.wrapR),e.magFilter!==void 0&&(t.magFilter=e.magFilter),e.minFilter!==void 0&&(t.minFilter=e.minFilter),e.format!==void 0&&(t.format=e.format),e.type!==void 0&&(t.type=e.type),e.anisotropy!==void 0&&(t.anisotropy=e.anisotropy),e.colorSpace!==void 0&&(t.colorSpace=e.colorSpace),e.flipY!==void 0&&(t.flipY=e.flipY),e.generateMipmaps!==void 0&&(t.generateMipmaps=e.generateMipmaps),e.mipmapsAutoUpdate!==void 0&&(t.mipmapsAutoUpdate=e.mipmapsAutoUpdate),e.internalFormat!==void 0&&(t.internalFormat=e.internalFormat);for(let e=0;e<this.textures.length;e++)this.textures[e].setValues(t)}get texture(){return this.textures[0]}set texture(e){this.textures[0]=e}set depthTexture(e){this._depthTexture!==null&&this._depthTexture.renderTarget===this&&(this._depthTexture.renderTarget=null),e!==null&&e.renderTarget===null&&(e.renderTarget=this),this._depthTexture=e}get depthTexture(){return this._depthTexture}setSize(e,t,n=1){if(this.width!==e||this.height!==t||this.depth!==n){this.width=e,this.height=t,this.depth=n;for(let r=0,i=this.textures.length;r<i;r++)this.textures[r].image.width=e,this.textures[r].image.height=t,this.textures[r].image.depth=n,this.textures[r].isData3DTexture!==!0&&(this.textures[r].isArrayTexture=this.textures[r].image.depth>1);this.dispose()}this.viewport.set(0,0,e,t),this.scissor.set(0,0,e,t)}clone(){return new this.constructor().copy(this)}copy(e){this.width=e.width,this.height=e.height,this.depth=e.depth,this.scissor.copy(e.scissor),this.scissorTest=e.scissorTest,this.viewport.copy(e.viewport),this.textures.length=0;for(let t=0,n=e.textures.length;t<n;t++){this.textures[t]=e.textures[t].clone(),this.textures[t].isRenderTargetTexture=!0,this.textures[t].renderTarget=this;let n=Object.assign({},e.textures[t].image);this.textures[t].source=new so(n)}if(this.depthBuffer=e.depthBuffer,this.stencilBuffer=e.stencilBuffer,this.resolveColorBuffer=e.resolveColorBuffer,this.resolveDepthBuffer=e.resolveDepthBuffer,this.resolveStencilBuffer=e.resolveStencilBuffer,this.storeMultisampledColorBuffer=e.storeMultisampledColorBuffer,this.storeMultisampledDepthBuffer=e.storeMultisampledDepthBuffer,this.storeMultisampledStencilBuffer=e.storeMultisampledStencilBuffer,e.depthTexture!==null){if(e.depthTexture.renderTarget===e){let t=e.depthTexture.clone();t.renderTarget=null,this.depthTexture=t}else this.depthTexture=e.depthTexture}else this.depthTexture=null;return this.samples=e.samples,this.multiview=e.multiview,this.useArrayDepthTexture=e.useArrayDepthTexture,this}dispose(){this.dispatchEvent({type:`dispose`})}},ho=class extends mo{constructor(e=1,t=1,n={}){super(e,t,n),this.isWebGLRenderTarget=!0}},go=class extends fo{constructor(e=null,t=1,n=1,r=1){super(null),this.isDataArrayTexture=!0,this.image={data:e,width:t,height:n,depth:r},this.magFilter=Rr,this.minFilter=Rr,this.wrapR=Ir,this.generateMipmaps=!1,this.flipY=!1,this.unpackAlignment=1,this.layerUpdates=new Set}copy(e){return super.copy(e),this.wrapR=e.wrapR,this}addLayerUpdate(e){this.layerUpdates.add(e)}clearLayerUpdates(){this.layerUpdates.clear()}},_o=class extends fo{constructor(e=null,t=1,n=1,r=1){super(null),this.isData3DTexture=!0,this.image={data:e,width:t,height:n,depth:r},this.magFilter=Rr,this.minFilter=Rr,this.wrapR=Ir,this.generateMipmaps=!1,this.flipY=!1,this.unpackAlignment=1}copy(e){return super.copy(e),this.wrapR=e.wrapR,this}},vo=class e{static{this.prototype.isMatrix4=!0}constructor(e,t,n,r,i,a,o,s,c,l,u,d,f,p,m,h){this.elements=[1,0,0,0,0,1,0,0,0,0,1,0,0,0,0,1],e!==void 0&&this.set(e,t,n,r,i,a,o,s,c,l,u,d,f,p,m,h)}set(e,t,n,r,i,a,o,s,c,l,u,d,f,p,m,h){let g=this.elements;return g[0]=e,g[4]=t,g[8]=n,g[12]=r,g[1]=i,g[5]=a,g[9]=o,g[13]=s,g[2]=c,g[6]=l,g[10]=u,g[14]=d,g[3]=f,g[7]=p,g[11]=m,g[15]=h,this}identity(){return this.set(1,0,0,0,0,1,0,0,0,0,1,0,0,0,0,1),this}clone(){return new e().fromArray(this.elements)}copy(e){let t=this.elements,n=e.elements;return t[0]=n[0],t[1]=n[1],t[2]=n[2],t[3]=n[3],t[4]=n[4],t[5]=n[5],t[6]=n[6],t[7]=n[7],t[8]=n[8],t[9]=n[9],t[10]=n[10],t[11]=n[11],t[12]=n[12],t[13]=n[13],t[14]=n[14],t[15]=n[15],this}copyPosition(e){let t=this.elements,n=e.elements;return t[12]=n[12],t[13]=n[13],t[14]=n[14],this}setFromMatrix3(e){let t=e.elements;return this.set(t[0],t[3],t[6],0,t[1],t[4],t[7],0,t[2],t[5],t[8],0,0,0,0,1),this}extractBasis(e,t,n){return this.determinantAffine()===0?(e.set(1,0,0),t.set(0,1,0),n.set(0,0,1),this):(e.setFromMatrixColumn(this,0),t.setFromMatrixColumn(this,1),n.setFromMatrixColumn(this,2),this)}makeBasis(e,t,n){return this.set(e.x,t.x,n.x,0,e.y,t.y,n.y,0,e.z,t.z,n.z,0,0,0,0,1),this}extractRotation(e){if(e.determinantAffine()===0)return this.identity();let t=this.elements,n=e.elements,r=1/yo.setFromMatrixColumn(e,0).length(),i=1/yo.setFromMatrixColumn(e,1).length(),a=1/yo.setFromMatrixColumn(e,2).length();return t[0]=n[0]*r,t[1]=n[1]*r,t[2]=n[2]*r,t[3]=0,t[4]=n[4]*i,t[5]=n[5]*i,t[6]=n[6]*i,t[7]=0,t[8]=n[8]*a,t[9]=n[9]*a,t[10]=n[10]*a,t[11]=0,t[12]=0,t[13]=0,t[14]=0,t[15]=1,this}makeRotationFromEuler(e){let t=this.elements,n=e.x,r=e.y,i=e.z,a=Math.cos(n),o=Math.sin(n),s=Math.cos(r),c=Math.sin(r),l=Math.cos(i),u=Math.sin(i);if(e.order===`XYZ`){let e=a*l,n=a*u,r=o*l,i=o*u;t[0]=s*l,t[4]=-s*u,t[8]=c,t[1]=n+r*c,t[5]=e-i*c,t[9]=-o*s,t[2]=i-e*c,t[6]=r+n*c,t[10]=a*s}else if(e.order===`YXZ`){let e=s*l,n=s*u,r=c*l,i=c*u;t[0]=e+i*o,t[4]=r*o-n,t[8]=a*c,t[1]=a*u,t[5]=a*l,t[9]=-o,t[2]=n*o-r,t[6]=i+e*o,t[10]=a*s}else if(e.order===`ZXY`){let e=s*l,n=s*u,r=c*l,i=c*u;t[0]=e-i*o,t[4]=-a*u,t[8]=r+n*o,t[1]=n+r*o,t[5]=a*l,t[9]=i-e*o,t[2]=-a*c,t[6]=o,t[10]=a*s}else if(e.order===`ZYX`){let e=a*l,n=a*u,r=o*l,i=o*u;t[0]=s*l,t[4]=r*c-n,t[8]=e*c+i,t[1]=s*u,t[5]=i*c+e,t[9]=n*c-r,t[2]=-c,t[6]=o*s,t[10]=a*s}else if(e.order===`YZX`){let e=a*s,n=a*c,r=o*s,i=o*c;t[0]=s*l,t[4]=i-e*u,t[8]=r*u+n,t[1]=u,t[5]=a*l,t[9]=-o*l,t[2]=-c*l,t[6]=n*u+r,t[10]=e-i*u}else if(e.order===`XZY`){let e=a*s,n=a*c,r=o*s,i=o*c;t[0]=s*l,t[4]=-u,t[8]=c*l,t[1]=e*u+i,t[5]=a*l,t[9]=n*u-r,t[2]=r*u-n,t[6]=o*l,t[10]=i*u+e}return t[3]=0,t[7]=0,t[11]=0,t[12]=0,t[13]=0,t[14]=0,t[15]=1,this}makeRotationFromQuaternion(e){return this.compose(xo,e,So)}lookAt(e,t,n){let r=this.elements;return To.subVectors(e,t),To.lengthSq()===0&&(To.z=1),To.normalize(),Co.crossVectors(n,To),Co.lengthSq()===0&&(Math.abs(n.z)===1?To.x+=1e-4:To.z+=1e-4,To.normalize(),Co.crossVectors(n,To)),Co.normalize(),wo.crossVectors(To,Co),r[0]=Co.x,r[4]=wo.x,r[8]=To.x,r[1]=Co.y,r[5]=wo.y,r[9]=To.y,r[2]=Co.z,r[6]=wo.z,r[10]=To.z,this}multiply(e){return this.multiplyMatrices(this,e)}premultiply(e){return this.multiplyMatrices(e,this)}multiplyMatrices(e,t){let n=e.elements,r=t.elements,i=this.elements,a=n[0],o=n[4],s=n[8],c=n[12],l=n[1],u=n[5],d=n[9],f=n[13],p=n[2],m=n[6],h=n[10],g=n[14],_=n[3],v=n[7],y=n[11],b=n[15],x=r[0],S=r[4],C=r[8],w=r[12],T=r[1],E=r[5],D=r[9],O=r[13],k=r[2],A=r[6],j=r[10],ee=r[14],M=r[3],N=r[7],te=r[11],ne=r[15];return i[0]=a*x+o*T+s*k+c*M,i[4]=a*S+o*E+s*A+c*N,i[8]=a*C+o*D+s*j+c*te,i[12]=a*w+o*O+s*ee+c*ne,i[1]=l*x+u*T+d*k+f*M,i[5]=l*S+u*E+d*A+f*N,i[9]=l*C+u*D+d*j+f*te,i[13]=l*w+u*O+d*ee+f*ne,i[2]=p*x+m*T+h*k+g*M,i[6]=p*S+m*E+h*A+g*N,i[10]=p*C+m*D+h*j+g*te,i[14]=p*w+m*O+h*ee+g*ne,i[3]=_*x+v*T+y*k+b*M,i[7]=_*S+v*E+y*A+b*N,i[11]=_*C+v*D+y*j+b*te,i[15]=_*w+v*O+y*ee+b*ne,this}multiplyScalar(e){let t=this.elements;return t[0]*=e,t[4]*=e,t[8]*=e,t[12]*=e,t[1]*=e,t[5]*=e,t[9]*=e,t[13]*=e,t[2]*=e,t[6]*=e,t[10]*=e,t[14]*=e,t[3]*=e,t[7]*=e,t[11]*=e,t[15]*=e,this}determinant(){let e=this.elements,t=e[0],n=e[4],r=e[8],i=e[12],a=e[1],o=e[5],s=e[9],c=e[13],l=e[2],u=e[6],d=e[10],f=e[14],p=e[3],m=e[7],h=e[11],g=e[15],_=s*f-c*d,v=o*f-c*u,y=o*d-s*u,b=a*f-c*l,x=a*d-s*l,S=a*u-o*l;return t*(m*_-h*v+g*y)-n*(p*_-h*b+g*x)+r*(p*v-m*b+g*S)-i*(p*y-m*x+h*S)}determinantAffine(){let e=this.elements,t=e[0],n=e[4],r=e[8],i=e[1],a=e[5],o=e[9],s=e[2],c=e[6],l=e[10];return t*(a*l-o*c)-n*(i*l-o*s)+r*(i*c-a*s)}transpose(){let e=this.elements,t;return t=e[1],e[1]=e[4],e[4]=t,t=e[2],e[2]=e[8],e[8]=t,t=e[6],e[6]=e[9],e[9]=t,t=e[3],e[3]=e[12],e[12]=t,t=e[7],e[7]=e[13],e[13]=t,t=e[11],e[11]=e[14],e[14]=t,this}setPosition(e,t,n){let r=this.elements;return e.isVector3?(r[12]=e.x,r[13]=e.y,r[14]=e.z):(r[12]=e,r[13]=t,r[14]=n),this}invert(){let e=this.elements,t=e[0],n=e[1],r=e[2],i=e[3],a=e[4],o=e[5],s=e[6],c=e[7],l=e[8],u=e[9],d=e[10],f=e[11],p=e[12],m=e[13],h=e[14],g=e[15],_=t*o-n*a,v=t*s-r*a,y=t*c-i*a,b=n*s-r*o,x=n*c-i*o,S=r*c-i*s,C=l*m-u*p,w=l*h-d*p,T=l*g-f*p,E=u*h-d*m,D=u*g-f*m,O=d*g-f*h,k=_*O-v*D+y*E+b*T-x*w+S*C;if(k===0)return this.set(0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0);let A=1/k;return e[0]=(o*O-s*D+c*E)*A,e[1]=(r*D-n*O-i*E)*A,e[2]=(m*S-h*x+g*b)*A,e[3]=(d*x-u*S-f*b)*A,e[4]=(s*T-a*O-c*w)*A,e[5]=(t*O-r*T+i*w)*A,e[6]=(h*y-p*S-g*v)*A,e[7]=(l*S-d*y+f*v)*A,e[8]=(a*D-o*T+c*C)*A,e[9]=(n*T-t*D-i*C)*A,e[10]=(p*x-m*y+g*_)*A,e[11]=(u*y-l*x-f*_)*A,e[12]=(o*w-a*E-s*C)*A,e[13]=(t*E-n*w+r*C)*A,e[14]=(m*v-p*b-h*_)*A,e[15]=(l*b-u*v+d*_)*A,this}scale(e){let t=this.elements,n=e.x,r=e.y,i=e.z;return t[0]*=n,t[4]*=r,t[8]*=i,t[1]*=n,t[5]*=r,t[9]*=i,t[2]*=n,t[6]*=r,t[10]*=i,t[3]*=n,t[7]*=r,t[11]*=i,this}getMaxScaleOnAxis(){let e=this.elements,t=e[0]*e[0]+e[1]*e[1]+e[2]*e[2],n=e[4]*e[4]+e[5]*e[5]+e[6]*e[6],r=e[8]*e[8]+e[9]*e[9]+e[10]*e[10];return Math.sqrt(Math.max(t,n,r))}makeTranslation(e,t,n){return e.isVector3?this.set(1,0,0,e.x,0,1,0,e.y,0,0,1,e.z,0,0,0,1):this.set(1,0,0,e,0,1,0,t,0,0,1,n,0,0,0,1),this}makeRotationX(e){let t=Math.cos(e),n=Math.sin(e);return this.set(1,0,0,0,0,t,-n,0,0,n,t,0,0,0,0,1),this}makeRotationY(e){let t=Math.cos(e),n=Math.sin(e);return this.set(t,0,n,0,0,1,0,0,-n,0,t,0,0,0,0,1),this}makeRotationZ(e){let t=Math.cos(e),n=Math.sin(e);return this.set(t,-n,0,0,n,t,0,0,0,0,1,0,0,0,0,1),this}makeRotationAxis(e,t){let n=Math.cos(t),r=Math.sin(t),i=1-n,a=e.x,o=e.y,s=e.z,c=i*a,l=i*o;return this.set(c*a+n,c*o-r*s,c*s+r*o,0,c*o+r*s,l*o+n,l*s-r*a,0,c*s-r*o,l*s+r*a,i*s*s+n,0,0,0,0,1),this}makeScale(e,t,n){return this.set(e,0,0,0,0,t,0,0,0,0,n,0,0,0,0,1),this}makeShear(e,t,n,r,i,a){return this.set(1,n,i,0,e,1,a,0,t,r,1,0,0,0,0,1),this}compose(e,t,n){let r=this.elements,i=t._x,a=t._y,o=t._z,s=t._w,c=i+i,l=a+a,u=o+o,d=i*c,f=i*l,p=i*u,m=a*l,h=a*u,g=o*u,_=s*c,v=s*l,y=s*u,b=n.x,x=n.y,S=n.z;return r[0]=(1-(m+g))*b,r[1]=(f+y)*b,r[2]=(p-v)*b,r[3]=0,r[4]=(f-y)*x,r[5]=(1-(d+g))*x,r[6]=(h+_)*x,r[7]=0,r[8]=(p+v)*S,r[9]=(h-_)*S,r[10]=(1-(d+m))*S,r[11]=0,r[12]=e.x,r[13]=e.y,r[14]=e.z,r[15]=1,this}decompose(e,t,n){let r=this.elements;e.x=r[12],e.y=r[13],e.z=r[14];let i=this.determinantAffine();if(i===0)return n.set(1,1,1),t.identity(),this;let a=yo.set(r[0],r[1],r[2]).length(),o=yo.set(r[4],r[5],r[6]).length(),s=yo.set(r[8],r[9],r[10]).length();i<0&&(a=-a),bo.copy(this);let c=1/a,l=1/o,u=1/s;return bo.elements[0]*=c,bo.elements[1]*=c,bo.elements[2]*=c,bo.elements[4]*=l,bo.elements[5]*=l,bo.elements[6]*=l,bo.elements[8]*=u,bo.elements[9]*=u,bo.elements[10]*=u,t.setFromRotationMatrix(bo),n.x=a,n.y=o,n.z=s,this}makePerspective(e,t,n,r,i,a,o=la,s=!1){let c=this.elements,l=2*i/(t-e),u=2*i/(n-r),d=(t+e)/(t-e),f=(n+r)/(n-r),p,m;if(s)p=i/(a-i),m=a*i/(a-i);else if(o===2e3)p=-(a+i)/(a-i),m=-2*a*i/(a-i);else if(o===2001)p=-a/(a-i),m=-a*i/(a-i);else throw Error(`THREE.Matrix4.makePerspective(): Invalid coordinate system: `+o);return c[0]=l,c[4]=0,c[8]=d,c[12]=0,c[1]=0,c[5]=u,c[9]=f,c[13]=0,c[2]=0,c[6]=0,c[10]=p,c[14]=m,c[3]=0,c[7]=0,c[11]=-1,c[15]=0,this}makeOrthographic(e,t,n,r,i,a,o=la,s=!1){let c=this.elements,l=2/(t-e),u=2/(n-r),d=-(t+e)/(t-e),f=-(n+r)/(n-r),p,m;if(s)p=1/(a-i),m=a/(a-i);else if(o===2e3)p=-2/(a-i),m=-(a+i)/(a-i);else if(o===2001)p=-1/(a-i),m=-i/(a-i);else throw Error(`THREE.Matrix4.makeOrthographic(): Invalid coordinate system: `+o);return c[0]=l,c[4]=0,c[8]=0,c[12]=d,c[1]=0,c[5]=u,c[9]=0,c[13]=f,c[2]=0,c[6]=0,c[10]=p,c[14]=m,c[3]=0,c[7]=0,c[11]=0,c[15]=1,this}equals(e){let t=this.elements,n=e.elements;for(let e=0;e<16;e++)if(t[e]!==n[e])return!1;return!0}fromArray(e,t=0){for(let n=0;n<16;n++)this.elements[n]=e[n+t];return this}toArray(e=[],t=0){let n=this.elements;return e[t]=n[0],e[t+1]=n[1],e[t+2]=n[2],e[t+3]=n[3],e[t+4]=n[4],e[t+5]=n[5],e[t+6]=n[6],e[t+7]=n[7],e[t+8]=n[8],e[t+9]=n[9],e[t+10]=n[10],e[t+11]=n[11],e[t+12]=n[12],e[t+13]=n[13],e[t+14]=n[14],e[t+15]=n[15],e}},yo=new X,bo=new vo,xo=new X(0,0,0),So=new X(1,1,1),Co=new X,wo=new X,To=new X,Eo=new vo,Do=new Ja,Oo=class e{constructor(t=0,n=0,r=0,i=e.DEFAULT_ORDER){this.isEuler=!0,this._x=t,this._y=n,this._z=r,this._order=i}get x(){return this._x}set x(e){this._x=e,this._onChangeCallback()}get y(){return this._y}set y(e){this._y=e,this._onChangeCallback()}get z(){return this._z}set z(e){this._z=e,this._onChangeCallback()}get order(){return this._order}set order(e){this._order=e,this._onChangeCallback()}set(e,t,n,r=this._order){return this._x=e,this._y=t,this._z=n,this._order=r,this._onChangeCallback(),this}clone(){return new this.constructor(this._x,this._y,this._z,this._order)}copy(e){return this._x=e._x,this._y=e._y,this._z=e._z,this._order=e._order,this._onChangeCallback(),this}setFromRotationMatrix(e,t=this._order,n=!0){let r=e.elements,i=r[0],a=r[4],o=r[8],s=r[1],c=r[5],l=r[9],u=r[2],d=r[6],f=r[10];switch(t){case`XYZ`:this._y=Math.asin(J(o,-1,1)),Math.abs(o)<.9999999?(this._x=Math.atan2(-l,f),this._z=Math.atan2(-a,i)):(this._x=Math.atan2(d,c),this._z=0);break;case`YXZ`:this._x=Math.asin(-J(l,-1,1)),Math.abs(l)<.9999999?(this._y=Math.atan2(o,f),this._z=Math.atan2(s,c)):(this._y=Math.atan2(-u,i),this._z=0);break;case`ZXY`:this._x=Math.asin(J(d,-1,1)),Math.abs(d)<.9999999?(this._y=Math.atan2(-u,f),this._z=Math.atan2(-a,c)):(this._y=0,this._z=Math.atan2(s,i));break;case`ZYX`:this._y=Math.asin(-J(u,-1,1)),Math.abs(u)<.9999999?(this._x=Math.atan2(d,f),this._z=Math.atan2(s,i)):(this._x=0,this._z=Math.atan2(-a,c));break;case`YZX`:this._z=Math.asin(J(s,-1,1)),Math.abs(s)<.9999999?(this._x=Math.atan2(-l,c),this._y=Math.atan2(-u,i)):(this._x=0,this._y=Math.atan2(o,f));break;case`XZY`:this._z=Math.asin(-J(a,-1,1)),Math.abs(a)<.9999999?(this._x=Math.atan2(d,c),this._y=Math.atan2(o,i)):(this._x=Math.atan2(-l,f),this._y=0);break;default:K(`Euler: .setFromRotationMatrix() encountered an unknown order: `+t)}return this._order=t,n===!0&&this._onChangeCallback(),this}setFromQuaternion(e,t,n){return Eo.makeRotationFromQuaternion(e),this.setFromRotationMatrix(Eo,t,n)}setFromVector3(e,t=this._order){return this.set(e.x,e.y,e.z,t)}reorder(e){return Do.setFromEuler(this),this.setFromQuaternion(Do,e)}equals(e){return e._x===this._x&&e._y===this._y&&e._z===this._z&&e._order===this._order}fromArray(e){return this._x=e[0],this._y=e[1],this._z=e[2],e[3]!==void 0&&(this._order=e[3]),this._onChangeCallback(),this}toArray(e=[],t=0){return e[t]=this._x,e[t+1]=this._y,e[t+2]=this._z,e[t+3]=this._order,e}_onChange(e){return this._onChangeCallback=e,this}_onChangeCallback(){}*[Symbol.iterator](){yield this._x,yield this._y,yield this._z,yield this._order}};Oo.DEFAULT_ORDER=`XYZ`;var ko=class{constructor(){this.mask=1}set(e){this.mask=1<<e>>>0}enable(e){this.mask|=1<<e}enableAll(){this.mask=-1}toggle(e){this.mask^=1<<e}disable(e){this.mask&=~(1<<e)}disableAll(){this.mask=0}test(e){return(this.mask&e.mask)!==0}isEnabled(e){return!!(this.mask&1<<e)}},Ao=0,jo=new X,Mo=new Ja,No=new vo,Po=new X,Fo=new X,Io=new X,Lo=new Ja,Ro=new X(1,0,0),zo=new X(0,1,0),Bo=new X(0,0,1),Vo={type:`added`},Ho={type:`removed`},Uo={type:`childadded`,child:null},Wo={type:`childremoved`,child:null},Go=class e extends ba{constructor(){super(),this.isObject3D=!0,Object.defineProperty(this,"id",{value:Ao++}),this.uuid=Ta(),this.name=``,this.type=`Object3D`,this.parent=null,this.children=[],this.up=e.DEFAULT_UP.clone();let t=new X,n=new Oo,r=new Ja,i=new X(1,1,1);function a(){r.setFromEuler(n,!1)}function o(){n.setFromQuaternion(r,void 0,!1)}n._onChange(a),r._onChange(o),Object.defineProperties(this,{position:{configurable:!0,enumerable:!0,value:t},rotation:{configurable:!0,enumerable:!0,value:n},quaternion:{configurable:!0,enumerable:!0,value:r},scale:{configurable:!0,enumerable:!0,value:i},modelViewMatrix:{value:new vo},normalMatrix:{value:new Z}}),this.matrix=new vo,this.matrixWorld=new vo,this.matrixAutoUpdate=e.DEFAULT_MATRIX_AUTO_UPDATE,this.matrixWorldAutoUpdate=e.DEFAULT_MATRIX_WORLD_AUTO_UPDATE,this.matrixWorldNeedsUpdate=!1,this.layers=new ko,this.visible=!0,this.castShadow=!1,this.receiveShadow=!1,this.frustumCulled=!0,this.renderOrder=0,this.animations=[],this.customDepthMaterial=void 0,this.customDistanceMaterial=void 0,this.static=!1,this.userData={},this.pivot=null}onBeforeShadow(){}onAfterShadow(){}onBeforeRender(){}onAfterRender(){}applyMatrix4(e){this.matrixAutoUpdate&&this.updateMatrix(),this.matrix.premultiply(e),this.matrix.decompose(this.position,this.quaternion,this.scale),this.pivot!==null&&this.position.copy(this.pivot).applyMatrix4(this.matrix).sub(this.pivot)}applyQuaternion(e){return this.quaternion.premultiply(e),this}setRotationFromAxisAngle(e,t){this.quaternion.setFromAxisAngle(e,t)}setRotationFromEuler(e){this.quaternion.setFromEuler(e,!0)}setRotationFromMatrix(e){this.quaternion.setFromRotationMatrix(e)}setRotationFromQuaternion(e){this.quaternion.copy(e)}rotateOnAxis(e,t){return Mo.setFromAxisAngle(e,t),this.quaternion.multiply(Mo),this}rotateOnWorldAxis(e,t){return Mo.setFromAxisAngle(e,t),this.quaternion.premultiply(Mo),this}rotateX(e){return this.rotateOnAxis(Ro,e)}rotateY(e){return this.rotateOnAxis(zo,e)}rotateZ(e){return this.rotateOnAxis(Bo,e)}translateOnAxis(e,t){return jo.copy(e).applyQuaternion(this.quaternion),this.position.add(jo.multiplyScalar(t)),this}translateX(e){return this.translateOnAxis(Ro,e)}translateY(e){return this.translateOnAxis(zo,e)}translateZ(e){return this.translateOnAxis(Bo,e)}localToWorld(e){return this.updateWorldMatrix(!0,!1),e.applyMatrix4(this.matrixWorld)}worldToLocal(e){return this.updateWorldMatrix(!0,!1),e.applyMatrix4(No.copy(this.matrixWorld).invert())}lookAt(e,t,n){e.isVector3?Po.copy(e):Po.set(e,t,n);let r=this.parent;this.updateWorldMatrix(!0,!1),Fo.setFromMatrixPosition(this.matrixWorld),this.isCamera||this.isLight?No.lookAt(Fo,Po,this.up):No.lookAt(Po,Fo,this.up),this.quaternion.setFromRotationMatrix(No),r&&(No.extractRotation(r.matrixWorld),Mo.setFromRotationMatrix(No),this.quaternion.premultiply(Mo.invert()))}add(e){if(arguments.length>1){for(let e=0;e<arguments.length;e++)this.add(arguments[e]);return this}return e===this?(q(`Object3D.add: object can't be added as a child of itself.`,e),this):(e&&e.isObject3D?(e.removeFromParent(),e.parent=this,this.children.push(e),e.dispatchEvent(Vo),Uo.child=e,this.dispatchEvent(Uo),Uo.child=null):q(`Object3D.add: object not an instance of THREE.Object3D.`,e),this)}remove(e){if(arguments.length>1){for(let e=0;e<arguments.length;e++)this.remove(arguments[e]);return this}let t=this.children.indexOf(e);return t!==-1&&(e.parent=null,this.children.splice(t,1),e.dispatchEvent(Ho),Wo.child=e,this.dispatchEvent(Wo),Wo.child=null),this}removeFromParent(){let e=this.parent;return e!==null&&e.remove(this),this}clear(){return this.remove(...this.children)}attach(e){return this.updateWorldMatrix(!0,!1),No.copy(this.matrixWorld).invert(),e.parent!==null&&(e.parent.updateWorldMatrix(!0,!1),No.multiply(e.parent.matrixWorld)),e.applyMatrix4(No),e.removeFromParent(),e.parent=this,this.children.push(e),e.updateWorldMatrix(!1,!0),e.dispatchEvent(Vo),Uo.child=e,this.dispatchEvent(Uo),Uo.child=null,this}getObjectById(e){return this.getObjectByProperty(`id`,e)}getObjectByName(e){return this.getObjectByProperty(`name`,e)}getObjectByProperty(e,t){if(this[e]===t)return this;for(let n=0,r=this.children.length;n<r;n++){let r=this.children[n].getObjectByProperty(e,t);if(r!==void 0)return r}}getObjectsByProperty(e,t,n=[]){this[e]===t&&n.push(this);let r=this.children;for(let i=0,a=r.length;i<a;i++)r[i].getObjectsByProperty(e,t,n);return n}getWorldPosition(e){return this.updateWorldMatrix(!0,!1),e.setFromMatrixPosition(this.matrixWorld)}getWorldQuaternion(e){return this.updateWorldMatrix(!0,!1),this.matrixWorld.decompose(Fo,e,Io),e}getWorldScale(e){return this.updateWorldMatrix(!0,!1),this.matrixWorld.decompose(Fo,Lo,e),e}getWorldDirection(e){this.updateWorldMatrix(!0,!1);let t=this.matrixWorld.elements;return e.set(t[8],t[9],t[10]).normalize()}raycast(){}intersectsFrustum(){return!0}traverse(e){e(this);let t=this.children;for(let n=0,r=t.length;n<r;n++)t[n].traverse(e)}traverseVisible(e){if(this.visible===!1)return;e(this);let t=this.children;for(let n=0,r=t.length;n<r;n++)t[n].traverseVisible(e)}traverseAncestors(e){let t=this.parent;t!==null&&(e(t),t.traverseAncestors(e))}updateMatrix(){this.matrix.compose(this.position,this.quaternion,this.scale);let e=this.pivot;if(e!==null){let t=e.x,n=e.y,r=e.z,i=this.matrix.elements;i[12]+=t-i[0]*t-i[4]*n-i[8]*r,i[13]+=n-i[1]*t-i[5]*n-i[9]*r,i[14]+=r-i[2]*t-i[6]*n-i[10]*r}this.matrixWorldNeedsUpdate=!0}updateMatrixWorld(e){this.matrixAutoUpdate&&this.updateMatrix(),(this.matrixWorldNeedsUpdate||e)&&(this.matrixWorldAutoUpdate===!0&&(this.parent===null?this.matrixWorld.copy(this.matrix):this.matrixWorld.multiplyMatrices(this.parent.matrixWorld,this.matrix)),this.matrixWorldNeedsUpdate=!1,e=!0);let t=this.children;for(let n=0,r=t.length;n<r;n++)t[n].updateMatrixWorld(e)}updateWorldMatrix(e,t,n=!1){let r=this.parent;if(e===!0&&r!==null&&r.updateWorldMatrix(!0,!1),this.matrixAutoUpdate&&this.updateMatrix(),(this.matrixWorldNeedsUpdate||n)&&(this.matrixWorldAutoUpdate===!0&&(this.parent===null?this.matrixWorld.copy(this.matrix):this.matrixWorld.multiplyMatrices(this.parent.matrixWorld,this.matrix)),this.matrixWorldNeedsUpdate=!1,n=!0),t===!0){let e=this.children;for(let t=0,r=e.length;t<r;t++)e[t].updateWorldMatrix(!1,!0,n)}}toJSON(e){let t=e===void 0||typeof e==`string`,n={};t&&(e={geometries:{},materials:{},textures:{},images:{},shapes:{},skeletons:{},animations:{},nodes:{}},n.metadata={version:4.7,type:`Object`,generator:`Object3D.toJSON`});let r={};r.uuid=this.uuid,r.type=this.type,r.name=this.name,r.castShadow=this.castShadow,r.receiveShadow=this.receiveShadow,r.visible=this.visible,r.frustumCulled=this.frustumCulled,r.renderOrder=this.renderOrder,r.static=this.static,r.matrixAutoUpdate=this.matrixAutoUpdate,Object.keys(this.userData).length>0&&(r.userData=this.userData),r.layers=this.layers.mask,r.matrix=this.matrix.toArray(),r.up=this.up.toArray(),this.pivot!==null&&(r.pivot=this.pivot.toArray()),this.morphTargetDictionary!==void 0&&(r.morphTargetDictionary=Object.assign({},this.morphTargetDictionary)),this.morphTargetInfluences!==void 0&&(r.morphTargetInfluences=this.morphTargetInfluences.slice()),this.isInstancedMesh&&(r.type=`InstancedMesh`,r.count=this.count,r.instanceMatrix=this.instanceMatrix.toJSON(),this.instanceColor!==null&&(r.instanceColor=this.instanceColor.toJSON())),this.isBatchedMesh&&(r.type=`BatchedMesh`,r.perObjectFrustumCulled=this.perObjectFrustumCulled,r.sortObjects=this.sortObjects,r.drawRanges=this._drawRanges,r.reservedRanges=this._reservedRanges,r.geometryInfo=this._geometryInfo.map(e=>({...e,boundingBox:e.boundingBox?e.boundingBox.toJSON():void 0,boundingSphere:e.boundingSphere?e.boundingSphere.toJSON():void 0})),r.instanceInfo=this._instanceInfo.map(e=>({...e})),r.availableInstanceIds=this._availableInstanceIds.slice(),r.availableGeometryIds=this._availableGeometryIds.slice(),r.nextIndexStart=this._nextIndexStart,r.nextVertexStart=this._nextVertexStart,r.geometryCount=this._geometryCount,r.maxInstanceCount=this._maxInstanceCount,r.maxVertexCount=this._maxVertexCount,r.maxIndexCount=this._maxIndexCount,r.geometryInitialized=this._geometryInitialized,r.matricesTexture=this._matricesTexture.toJSON(e),r.indirectTexture=this._indirectTexture.toJSON(e),this._colorsTexture!==null&&(r.colorsTexture=this._colorsTexture.toJSON(e)),this.boundingSphere!==null&&(r.boundingSphere=this.boundingSphere.toJSON()),this.boundingBox!==null&&(r.boundingBox=this.boundingBox.toJSON()));function i(t,n){return t[n.uuid]===void 0&&(t[n.uuid]=n.toJSON(e)),n.uuid}if(this.isScene)this.background&&(this.background.isColor?r.background=this.background.toJSON():this.background.isTexture&&(r.background=this.background.toJSON(e).uuid)),this.environment&&this.environment.isTexture&&this.environment.isRenderTargetTexture!==!0&&(r.environment=this.environment.toJSON(e).uuid);else if(this.isMesh||this.isLine||this.isPoints){r.geometry=i(e.geometries,this.geometry);let t=this.geometry.parameters;if(t!==void 0&&t.shapes!==void 0){let n=t.shapes;if(Array.isArray(n))for(let t=0,r=n.length;t<r;t++){let r=n[t];i(e.shapes,r)}else i(e.shapes,n)}}if(this.isSkinnedMesh&&(r.bindMode=this.bindMode,r.bindMatrix=this.bindMatrix.toArray(),this.skeleton!==void 0&&(i(e.skeletons,this.skeleton),r.skeleton=this.skeleton.uuid)),this.material!==void 0){if(Array.isArray(this.material)){let t=[];for(let n=0,r=this.material.length;n<r;n++)t.push(i(e.materials,this.material[n]));r.material=t}else r.material=i(e.materials,this.material)}if(this.children.length>0){r.children=[];for(let t=0;t<this.children.length;t++)r.children.push(this.children[t].toJSON(e).object)}if(this.animations.length>0){r.animations=[];for(let t=0;t<this.animations.length;t++){let n=this.animations[t];r.animations.push(i(e.animations,n))}}if(t){let t=a(e.geometries),r=a(e.materials),i=a(e.textures),o=a(e.images),s=a(e.shapes),c=a(e.skeletons),l=a(e.animations),u=a(e.nodes);t.length>0&&(n.geometries=t),r.length>0&&(n.materials=r),i.length>0&&(n.textures=i),o.length>0&&(n.images=o),s.length>0&&(n.shapes=s),c.length>0&&(n.skeletons=c),l.length>0&&(n.animations=l),u.length>0&&(n.nodes=u)}return n.object=r,n;function a(e){let t=[];for(let n in e){let r=e[n];delete r.metadata,t.push(r)}return t}}clone(e){return new this.constructor().copy(this,e)}copy(e,t=!0){if(this.name=e.name,this.up.copy(e.up),this.position.copy(e.position),this.rotation.order=e.rotation.order,this.quaternion.copy(e.quaternion),this.scale.copy(e.scale),this.pivot=e.pivot===null?null:e.pivot.clone(),this.matrix.copy(e.matrix),this.matrixWorld.copy(e.matrixWorld),this.matrixAutoUpdate=e.matrixAutoUpdate,this.matrixWorldAutoUpdate=e.matrixWorldAutoUpdate,this.matrixWorldNeedsUpdate=e.matrixWorldNeedsUpdate,this.layers.mask=e.layers.mask,this.visible=e.visible,this.castShadow=e.castShadow,this.receiveShadow=e.receiveShadow,this.frustumCulled=e.frustumCulled,this.renderOrder=e.renderOrder,this.static=e.static,this.animations=e.animations.slice(),this.userData=JSON.parse(JSON.stringify(e.userData)),t===!0)for(let t=0;t<e.children.length;t++){let n=e.children[t];this.add(n.clone())}return this}dispose(){this.dispatchEvent({type:`dispose`})}};Go.DEFAULT_UP=new X(0,1,0),Go.DEFAULT_MATRIX_AUTO_UPDATE=!0,Go.DEFAULT_MATRIX_WORLD_AUTO_UPDATE=!0;var Ko=class extends Go{constructor(){super(),this.isGroup=!0,this.type=`Group`}},qo={type:`move`},Jo=class{constructor(){this._targetRay=null,this._grip=null,this._hand=null}getHandSpace(){return this._hand===null&&(this._hand=new Ko,this._hand.matrixAutoUpdate=!1,this._hand.visible=!1,this._hand.joints={},this._hand.inputState={pinching:!1}),this._hand}getTargetRaySpace(){return this._targetRay===null&&(this._targetRay=new Ko,this._targetRay.matrixAutoUpdate=!1,this._targetRay.visible=!1,this._targetRay.hasLinearVelocity=!1,this._targetRay.linearVelocity=new X,this._targetRay.hasAngularVelocity=!1,this._targetRay.angularVelocity=new X),this._targetRay}getGripSpace(){return this._grip===null&&(this._grip=new Ko,this._grip.matrixAutoUpdate=!1,this._grip.visible=!1,this._grip.hasLinearVelocity=!1,this._grip.linearVelocity=new X,this._grip.hasAngularVelocity=!1,this._grip.angularVelocity=new X,this._grip.eventsEnabled=!1),this._grip}dispatchEvent(e){return this._targetRay!==null&&this._targetRay.dispatchEvent(e),this._grip!==null&&this._grip.dispatchEvent(e),this._hand!==null&&this._hand.dispatchEvent(e),this}connect(e){if(e&&e.hand){let t=this._hand;if(t)for(let n of e.hand.values())this._getHandJoint(t,n)}return this.dispatchEvent({type:`connected`,data:e}),this}disconnect(e){return this.dispatchEvent({type:`disconnected`,data:e}),this._targetRay!==null&&(this._targetRay.visible=!1),this._grip!==null&&(this._grip.visible=!1),this._hand!==null&&(this._hand.visible=!1),this}update(e,t,n){let r=null,i=null,a=null,o=this._targetRay,s=this._grip,c=this._hand;if(e&&t.session.visibilityState!==`visible-blurred`){if(c&&e.hand){a=!0;for(let r of e.hand.values()){let e=t.getJointPose(r,n),i=this._getHandJoint(c,r);e!==null&&(i.matrix.fromArray(e.transform.matrix),i.matrix.decompose(i.position,i.quaternion,i.scale),i.matrixWorldNeedsUpdate=!0,i.jointRadius=e.radius),i.visible=e!==null}let r=c.joints[`index-finger-tip`],i=c.joints[`thumb-tip`],o=r.position.distanceTo(i.position);c.inputState.pinching&&o>.025?(c.inputState.pinching=!1,this.dispatchEvent({type:`pinchend`,handedness:e.handedness,target:this})):!c.inputState.pinching&&o<=.015&&(c.inputState.pinching=!0,this.dispatchEvent({type:`pinchstart`,handedness:e.handedness,target:this}))}else s!==null&&e.gripSpace&&(i=t.getPose(e.gripSpace,n),i!==null&&(s.matrix.fromArray(i.transform.matrix),s.matrix.decompose(s.position,s.quaternion,s.scale),s.matrixWorldNeedsUpdate=!0,i.linearVelocity?(s.hasLinearVelocity=!0,s.linearVelocity.copy(i.linearVelocity)):s.hasLinearVelocity=!1,i.angularVelocity?(s.hasAngularVelocity=!0,s.angularVelocity.copy(i.angularVelocity)):s.hasAngularVelocity=!1,s.eventsEnabled&&s.dispatchEvent({type:`gripUpdated`,data:e,target:this})));o!==null&&(r=t.getPose(e.targetRaySpace,n),r===null&&i!==null&&(r=i),r!==null&&(o.matrix.fromArray(r.transform.matrix),o.matrix.decompose(o.position,o.quaternion,o.scale),o.matrixWorldNeedsUpdate=!0,r.linearVelocity?(o.hasLinearVelocity=!0,o.linearVelocity.copy(r.linearVelocity)):o.hasLinearVelocity=!1,r.angularVelocity?(o.hasAngularVelocity=!0,o.angularVelocity.copy(r.angularVelocity)):o.hasAngularVelocity=!1,this.dispatchEvent(qo)))}return o!==null&&(o.visible=r!==null),s!==null&&(s.visible=i!==null),c!==null&&(c.visible=a!==null),this}_getHandJoint(e,t){if(e.joints[t.jointName]===void 0){let n=new Ko;n.matrixAutoUpdate=!1,n.visible=!1,e.joints[t.jointName]=n,e.add(n)}return e.joints[t.jointName]}},Yo={aliceblue:15792383,antiquewhite:16444375,aqua:65535,aquamarine:8388564,azure:15794175,beige:16119260,bisque:16770244,black:0,blanchedalmond:16772045,blue:255,blueviolet:9055202,brown:10824234,burlywood:14596231,cadetblue:6266528,chartreuse:8388352,chocolate:13789470,coral:16744272,cornflowerblue:6591981,cornsilk:16775388,crimson:14423100,cyan:65535,darkblue:139,darkcyan:35723,darkgoldenrod:12092939,darkgray:11119017,darkgreen:25600,darkgrey:11119017,darkkhaki:12433259,darkmagenta:9109643,darkolivegreen:5597999,darkorange:16747520,darkorchid:10040012,darkred:9109504,darksalmon:15308410,darkseagreen:9419919,darkslateblue:4734347,darkslategray:3100495,darkslategrey:3100495,darkturquoise:52945,darkviolet:9699539,deeppink:16716947,deepskyblue:49151,dimgray:6908265,dimgrey:6908265,dodgerblue:2003199,firebrick:11674146,floralwhite:16775920,forestgreen:2263842,fuchsia:16711935,gainsboro:14474460,ghostwhite:16316671,gold:16766720,goldenrod:14329120,gray:8421504,green:32768,greenyellow:11403055,grey:8421504,honeydew:15794160,hotpink:16738740,indianred:13458524,indigo:4915330,ivory:16777200,khaki:15787660,lavender:15132410,lavenderblush:16773365,lawngreen:8190976,lemonchiffon:16775885,lightblue:11393254,lightcoral:15761536,lightcyan:14745599,lightgoldenrodyellow:16448210,lightgray:13882323,lightgreen:9498256,lightgrey:13882323,lightpink:16758465,lightsalmon:16752762,lightseagreen:2142890,lightskyblue:8900346,lightslategray:7833753,lightslategrey:7833753,lightsteelblue:11584734,lightyellow:16777184,lime:65280,limegreen:3329330,linen:16445670,magenta:16711935,maroon:8388608,mediumaquamarine:6737322,mediumblue:205,mediumorchid:12211667,mediumpurple:9662683,mediumseagreen:3978097,mediumslateblue:8087790,mediumspringgreen:64154,mediumturquoise:4772300,mediumvioletred:13047173,midnightblue:1644912,mintcream:16121850,mistyrose:16770273,moccasin:16770229,navajowhite:16768685,navy:128,oldlace:16643558,olive:8421376,olivedrab:7048739,orange:16753920,orangered:16729344,orchid:14315734,palegoldenrod:15657130,palegreen:10025880,paleturquoise:11529966,palevioletred:14381203,papayawhip:16773077,peachpuff:16767673,peru:13468991,pink:16761035,plum:14524637,powderblue:11591910,purple:8388736,rebeccapurple:6697881,red:16711680,rosybrown:12357519,royalblue:4286945,saddlebrown:9127187,salmon:16416882,sandybrown:16032864,seagreen:3050327,seashell:16774638,sienna:10506797,silver:12632256,skyblue:8900331,slateblue:6970061,slategray:7372944,slategrey:7372944,snow:16775930,springgreen:65407,steelblue:4620980,tan:13808780,teal:32896,thistle:14204888,tomato:16737095,turquoise:4251856,violet:15631086,wheat:16113331,white:16777215,whitesmoke:16119285,yellow:16776960,yellowgreen:10145074},Xo={h:0,s:0,l:0},Zo={h:0,s:0,l:0};function Qo(e,t,n){return n<0&&(n+=1),n>1&&--n,n<1/6?e+(t-e)*6*n:n<1/2?t:n<2/3?e+(t-e)*6*(2/3-n):e}var $o=class{constructor(e,t,n){return this.isColor=!0,this.r=1,this.g=1,this.b=1,this.set(e,t,n)}set(e,t,n){if(t===void 0&&n===void 0){let t=e;t&&t.isColor?this.copy(t):typeof t==`number`?this.setHex(t):typeof t==`string`&&this.setStyle(t)}else this.setRGB(e,t,n);return this}setScalar(e){return this.r=e,this.g=e,this.b=e,this}setHex(e,t=ra){return e=Math.floor(e),this.r=(e>>16&255)/255,this.g=(e>>8&255)/255,this.b=(e&255)/255,to.colorSpaceToWorking(this,t),this}setRGB(e,t,n,r=to.workingColorSpace){return this.r=e,this.g=t,this.b=n,to.colorSpaceToWorking(this,r),this}setHSL(e,t,n,r=to.workingColorSpace){if(e=Ea(e,1),t=J(t,0,1),n=J(n,0,1),t===0)this.r=this.g=this.b=n;else{let r=n<=.5?n*(1+t):n+t-n*t,i=2*n-r;this.r=Qo(i,r,e+1/3),this.g=Qo(i,r,e),this.b=Qo(i,r,e-1/3)}return to.colorSpaceToWorking(this,r),this}setStyle(e,t=ra){function n(t){t!==void 0&&parseFloat(t)<1&&K(`Color: Alpha component of `+e+` will be ignored.`)}let r;if(r=/^(\w+)\(([^\)]*)\)/.exec(e)){let i,a=r[1],o=r[2];switch(a){case`rgb`:case`rgba`:if(i=/^\s*(\d+)\s*,\s*(\d+)\s*,\s*(\d+)\s*(?:,\s*(\d+(?:\.\d+)?|\.\d+)\s*)?$/.exec(o))return n(i[4]),this.setRGB(Math.min(255,parseInt(i[1],10))/255,Math.min(255,parseInt(i[2],10))/255,Math.min(255,parseInt(i[3],10))/255,t);if(i=/^\s*(\d+(?:\.\d+)?|\.\d+)\%\s*,\s*(\d+(?:\.\d+)?|\.\d+)\%\s*,\s*(\d+(?:\.\d+)?|\.\d+)\%\s*(?:,\s*(\d+(?:\.\d+)?|\.\d+)\s*)?$/.exec(o))return n(i[4]),this.setRGB(Math.min(100,parseFloat(i[1]))/100,Math.min(100,parseFloat(i[2]))/100,Math.min(100,parseFloat(i[3]))/100,t);break;case`hsl`:case`hsla`:if(i=/^\s*([+-]?(?:\d+(?:\.\d+)?|\.\d+))\s*,\s*(\d+(?:\.\d+)?|\.\d+)\%\s*,\s*(\d+(?:\.\d+)?|\.\d+)\%\s*(?:,\s*(\d+(?:\.\d+)?|\.\d+)\s*)?$/.exec(o))return n(i[4]),this.setHSL(parseFloat(i[1])/360,parseFloat(i[2])/100,parseFloat(i[3])/100,t);break;default:K(`Color: Unknown color model `+e)}}else if(r=/^\#([A-Fa-f\d]+)$/.exec(e)){let n=r[1],i=n.length;if(i===3)return this.setRGB(parseInt(n.charAt(0),16)/15,parseInt(n.charAt(1),16)/15,parseInt(n.charAt(2),16)/15,t);if(i===6)return this.setHex(parseInt(n,16),t);K(`Color: Invalid hex color `+e)}else if(e&&e.length>0)return this.setColorName(e,t);return this}setColorName(e,t=ra){let n=Yo[e.toLowerCase()];return n===void 0?K(`Color: Unknown color `+e):this.setHex(n,t),this}clone(){return new this.constructor(this.r,this.g,this.b)}copy(e){return this.r=e.r,this.g=e.g,this.b=e.b,this}copySRGBToLinear(e){return this.r=no(e.r),this.g=no(e.g),this.b=no(e.b),this}copyLinearToSRGB(e){return this.r=ro(e.r),this.g=ro(e.g),this.b=ro(e.b),this}convertSRGBToLinear(){return this.copySRGBToLinear(this),this}convertLinearToSRGB(){return this.copyLinearToSRGB(this),this}getHex(e=ra){return to.workingToColorSpace(es.copy(this),e),Math.round(J(es.r*255,0,255))*65536+Math.round(J(es.g*255,0,255))*256+Math.round(J(es.b*255,0,255))}getHexString(e=ra){return(`000000`+this.getHex(e).toString(16)).slice(-6)}getHSL(e,t=to.workingColorSpace){to.workingToColorSpace(es.copy(this),t);let n=es.r,r=es.g,i=es.b,a=Math.max(n,r,i),o=Math.min(n,r,i),s,c,l=(o+a)/2;if(o===a)s=0,c=0;else{let e=a-o;switch(c=l<=.5?e/(a+o):e/(2-a-o),a){case n:s=(r-i)/e+(r<i?6:0);break;case r:s=(i-n)/e+2;break;case i:s=(n-r)/e+4}s/=6}return e.h=s,e.s=c,e.l=l,e}getRGB(e,t=to.workingColorSpace){return to.workingToColorSpace(es.copy(this),t),e.r=es.r,e.g=es.g,e.b=es.b,e}getStyle(e=ra){to.workingToColorSpace(es.copy(this),e);let t=es.r,n=es.g,r=es.b;return e===`srgb`?`rgb(${Math.round(t*255)},${Math.round(n*255)},${Math.round(r*255)})`:`color(${e} ${t.toFixed(3)} ${n.toFixed(3)} ${r.toFixed(3)})`}offsetHSL(e,t,n){return this.getHSL(Xo),this.setHSL(Xo.h+e,Xo.s+t,Xo.l+n)}add(e){return this.r+=e.r,this.g+=e.g,this.b+=e.b,this}addColors(e,t){return this.r=e.r+t.r,this.g=e.g+t.g,this.b=e.b+t.b,this}addScalar(e){return this.r+=e,this.g+=e,this.b+=e,this}sub(e){return this.r=Math.max(0,this.r-e.r),this.g=Math.max(0,this.g-e.g),this.b=Math.max(0,this.b-e.b),this}multiply(e){return this.r*=e.r,this.g*=e.g,this.b*=e.b,this}multiplyScalar(e){return this.r*=e,this.g*=e,this.b*=e,this}lerp(e,t){return this.r+=(e.r-this.r)*t,this.g+=(e.g-this.g)*t,this.b+=(e.b-this.b)*t,this}lerpColors(e,t,n){return this.r=e.r+(t.r-e.r)*n,this.g=e.g+(t.g-e.g)*n,this.b=e.b+(t.b-e.b)*n,this}lerpHSL(e,t){this.getHSL(Xo),e.getHSL(Zo);let n=ka(Xo.h,Zo.h,t),r=ka(Xo.s,Zo.s,t),i=ka(Xo.l,Zo.l,t);return this.setHSL(n,r,i),this}setFromVector3(e){return this.r=e.x,this.g=e.y,this.b=e.z,this}applyMatrix3(e){let t=this.r,n=this.g,r=this.b,i=e.elements;return this.r=i[0]*t+i[3]*n+i[6]*r,this.g=i[1]*t+i[4]*n+i[7]*r,this.b=i[2]*t+i[5]*n+i[8]*r,this}equals(e){return e.r===this.r&&e.g===this.g&&e.b===this.b}fromArray(e,t=0){return this.r=e[t],this.g=e[t+1],this.b=e[t+2],this}toArray(e=[],t=0){return e[t]=this.r,e[t+1]=this.g,e[t+2]=this.b,e}fromBufferAttribute(e,t){return this.r=e.getX(t),this.g=e.getY(t),this.b=e.getZ(t),this}toJSON(){return this.getHex()}*[Symbol.iterator](){yield this.r,yield this.g,yield this.b}},es=new $o;$o.NAMES=Yo;var ts=class extends Go{constructor(){super(),this.isScene=!0,this.type=`Scene`,this.background=null,this.environment=null,this.fog=null,this.backgroundBlurriness=0,this.backgroundIntensity=1,this.backgroundRotation=new Oo,this.environmentIntensity=1,this.environmentRotation=new Oo,this.overrideMaterial=null,typeof __THREE_DEVTOOLS__<`u`&&__THREE_DEVTOOLS__.dispatchEvent(new CustomEvent(`observe`,{detail:this}))}copy(e,t){return super.copy(e,t),this.background=e.background===null?null:e.background.clone(),this.environment=e.environment===null?null:e.environment.clone(),this.fog=e.fog===null?null:e.fog.clone(),this.backgroundBlurriness=e.backgroundBlurriness,this.backgroundIntensity=e.backgroundIntensity,this.backgroundRotation.copy(e.backgroundRotation),this.environmentIntensity=e.environmentIntensity,this.environmentRotation.copy(e.environmentRotation),this.overrideMaterial=e.overrideMaterial===null?null:e.overrideMaterial.clone(),this.matrixAutoUpdate=e.matrixAutoUpdate,this}toJSON(e){let t=super.toJSON(e);return this.fog!==null&&(t.object.fog=this.fog.toJSON()),t.object.backgroundBlurriness=this.backgroundBlurriness,t.object.backgroundIntensity=this.backgroundIntensity,t.object.backgroundRotation=this.backgroundRotation.toArray(),t.object.environmentIntensity=this.environmentIntensity,t.object.environmentRotation=this.environmentRotation.toArray(),t}},ns=new X,rs=new X,is=new X,as=new X,os=new X,ss=new X,cs=new X,ls=new X,us=new X,ds=new X,fs=new po,ps=new po,ms=new po,hs=class e{constructor(e=new X,t=new X,n=new X){this.a=e,this.b=t,this.c=n}static getNormal(e,t,n,r){r.subVectors(n,t),ns.subVectors(e,t),r.cross(ns);let i=r.lengthSq();return i>0?r.multiplyScalar(1/Math.sqrt(i)):r.set(0,0,0)}static getBarycoord(e,t,n,r,i){ns.subVectors(r,t),rs.subVectors(n,t),is.subVectors(e,t);let a=ns.dot(ns),o=ns.dot(rs),s=ns.dot(is),c=rs.dot(rs),l=rs.dot(is),u=a*c-o*o;if(u===0)return i.set(0,0,0),null;let d=1/u,f=(c*s-o*l)*d,p=(a*l-o*s)*d;return i.set(1-f-p,p,f)}static containsPoint(e,t,n,r){return this.getBarycoord(e,t,n,r,as)!==null&&as.x>=0&&as.y>=0&&as.x+as.y<=1}static getInterpolation(e,t,n,r,i,a,o,s){return this.getBarycoord(e,t,n,r,as)===null?(s.x=0,s.y=0,`z`in s&&(s.z=0),`w`in s&&(s.w=0),null):(s.setScalar(0),s.addScaledVector(i,as.x),s.addScaledVector(a,as.y),s.addScaledVector(o,as.z),s)}static getInterpolatedAttribute(e,t,n,r,i,a){return fs.setScalar(0),ps.setScalar(0),ms.setScalar(0),fs.fromBufferAttribute(e,t),ps.fromBufferAttribute(e,n),ms.fromBufferAttribute(e,r),a.setScalar(0),a.addScaledVector(fs,i.x),a.addScaledVector(ps,i.y),a.addScaledVector(ms,i.z),a}static isFrontFacing(e,t,n,r){return ns.subVectors(n,t),rs.subVectors(e,t),ns.cross(rs).dot(r)<0}set(e,t,n){return this.a.copy(e),this.b.copy(t),this.c.copy(n),this}setFromPointsAndIndices(e,t,n,r){return this.a.copy(e[t]),this.b.copy(e[n]),this.c.copy(e[r]),this}setFromAttributeAndIndices(e,t,n,r){return this.a.fromBufferAttribute(e,t),this.b.fromBufferAttribute(e,n),this.c.fromBufferAttribute(e,r),this}clone(){return new this.constructor().copy(this)}copy(e){return this.a.copy(e.a),this.b.copy(e.b),this.c.copy(e.c),this}getArea(){return ns.subVectors(this.c,this.b),rs.subVectors(this.a,this.b),ns.cross(rs).length()*.5}getMidpoint(e){return e.addVectors(this.a,this.b).add(this.c).multiplyScalar(1/3)}getNormal(t){return e.getNormal(this.a,this.b,this.c,t)}getPlane(e){return e.setFromCoplanarPoints(this.a,this.b,this.c)}getBarycoord(t,n){return e.getBarycoord(t,this.a,this.b,this.c,n)}getInterpolation(t,n,r,i,a){return e.getInterpolation(t,this.a,this.b,this.c,n,r,i,a)}containsPoint(t){return e.containsPoint(t,this.a,this.b,this.c)}isFrontFacing(t){return e.isFrontFacing(this.a,this.b,this.c,t)}intersectsBox(e){return e.intersectsTriangle(this)}closestPointToPoint(e,t){let n=this.a,r=this.b,i=this.c,a,o;os.subVectors(r,n),ss.subVectors(i,n),ls.subVectors(e,n);let s=os.dot(ls),c=ss.dot(ls);if(s<=0&&c<=0)return t.copy(n);us.subVectors(e,r);let l=os.dot(us),u=ss.dot(us);if(l>=0&&u<=l)return t.copy(r);let d=s*u-l*c;if(d<=0&&s>=0&&l<=0&&s-l>0)return a=s/(s-l),t.copy(n).addScaledVector(os,a);ds.subVectors(e,i);let f=os.dot(ds),p=ss.dot(ds);if(p>=0&&f<=p)return t.copy(i);let m=f*c-s*p;if(m<=0&&c>=0&&p<=0)return o=c/(c-p),t.copy(n).addScaledVector(ss,o);let h=l*p-f*u;if(h<=0&&u-l>=0&&f-p>=0)return cs.subVectors(i,r),o=(u-l)/(u-l+(f-p)),t.copy(r).addScaledVector(cs,o);let g=1/(h+m+d);return a=m*g,o=d*g,t.copy(n).addScaledVector(os,a).addScaledVector(ss,o)}equals(e){return e.a.equals(this.a)&&e.b.equals(this.b)&&e.c.equals(this.c)}},gs=class{constructor(e=new X(1/0,1/0,1/0),t=new X(-1/0,-1/0,-1/0)){this.isBox3=!0,this.min=e,this.max=t}set(e,t){return this.min.copy(e),this.max.copy(t),this}setFromArray(e){this.makeEmpty();for(let t=0,n=e.length;t<n;t+=3)this.expandByPoint(vs.fromArray(e,t));return this}setFromBufferAttribute(e){this.makeEmpty();for(let t=0,n=e.count;t<n;t++)this.expandByPoint(vs.fromBufferAttribute(e,t));return this}setFromPoints(e){this.makeEmpty();for(let t=0,n=e.length;t<n;t++)this.expandByPoint(e[t]);return this}setFromCenterAndSize(e,t){let n=vs.copy(t).multiplyScalar(.5);return this.min.copy(e).sub(n),this.max.copy(e).add(n),this}setFromObject(e,t=!1){return this.makeEmpty(),this.expandByObject(e,t)}clone(){return new this.constructor().copy(this)}copy(e){return this.min.copy(e.min),this.max.copy(e.max),this}makeEmpty(){return this.min.x=this.min.y=this.min.z=1/0,this.max.x=this.max.y=this.max.z=-1/0,this}isEmpty(){return this.max.x<this.min.x||this.max.y<this.min.y||this.max.z<this.min.z}getCenter(e){return this.isEmpty()?e.set(0,0,0):e.addVectors(this.min,this.max).multiplyScalar(.5)}getSize(e){return this.isEmpty()?e.set(0,0,0):e.subVectors(this.max,this.min)}expandByPoint(e){return this.min.min(e),this.max.max(e),this}expandByVector(e){return this.min.sub(e),this.max.add(e),this}expandByScalar(e){return this.min.addScalar(-e),this.max.addScalar(e),this}expandByObject(e,t=!1){e.updateWorldMatrix(!1,!1);let n=e.geometry;if(n!==void 0){let r=n.getAttribute(`position`);if(t===!0&&r!==void 0&&e.isInstancedMesh!==!0&&e.isBatchedMesh!==!0)for(let t=0,n=r.count;t<n;t++)e.isMesh===!0?e.getVertexPosition(t,vs):vs.fromBufferAttribute(r,t),vs.applyMatrix4(e.matrixWorld),this.expandByPoint(vs);else e.boundingBox===void 0?(n.boundingBox===null&&n.computeBoundingBox(),ys.copy(n.boundingBox)):(e.boundingBox===null&&e.computeBoundingBox(),ys.copy(e.boundingBox)),ys.applyMatrix4(e.matrixWorld),this.union(ys)}let r=e.children;for(let e=0,n=r.length;e<n;e++)this.expandByObject(r[e],t);return this}containsPoint(e){return e.x>=this.min.x&&e.x<=this.max.x&&e.y>=this.min.y&&e.y<=this.max.y&&e.z>=this.min.z&&e.z<=this.max.z}containsBox(e){return this.min.x<=e.min.x&&e.max.x<=this.max.x&&this.min.y<=e.min.y&&e.max.y<=this.max.y&&this.min.z<=e.min.z&&e.max.z<=this.max.z}getParameter(e,t){return t.set((e.x-this.min.x)/(this.max.x-this.min.x),(e.y-this.min.y)/(this.max.y-this.min.y),(e.z-this.min.z)/(this.max.z-this.min.z))}intersectsBox(e){return e.max.x>=this.min.x&&e.min.x<=this.max.x&&e.max.y>=this.min.y&&e.min.y<=this.max.y&&e.max.z>=this.min.z&&e.min.z<=this.max.z}intersectsSphere(e){return this.clampPoint(e.center,vs),vs.distanceToSquared(e.center)<=e.radius*e.radius}intersectsPlane(e){let t,n;return e.normal.x>0?(t=e.normal.x*this.min.x,n=e.normal.x*this.max.x):(t=e.normal.x*this.max.x,n=e.normal.x*this.min.x),e.normal.y>0?(t+=e.normal.y*this.min.y,n+=e.normal.y*this.max.y):(t+=e.normal.y*this.max.y,n+=e.normal.y*this.min.y),e.normal.z>0?(t+=e.normal.z*this.min.z,n+=e.normal.z*this.max.z):(t+=e.normal.z*this.max.z,n+=e.normal.z*this.min.z),t<=-e.constant&&n>=-e.constant}intersectsTriangle(e){if(this.isEmpty())return!1;this.getCenter(Es),Ds.subVectors(this.max,Es),bs.subVectors(e.a,Es),xs.subVectors(e.b,Es),Ss.subVectors(e.c,Es),Cs.subVectors(xs,bs),ws.subVectors(Ss,xs),Ts.subVectors(bs,Ss);let t=[0,-Cs.z,Cs.y,0,-ws.z,ws.y,0,-Ts.z,Ts.y,Cs.z,0,-Cs.x,ws.z,0,-ws.x,Ts.z,0,-Ts.x,-Cs.y,Cs.x,0,-ws.y,ws.x,0,-Ts.y,Ts.x,0];return!As(t,bs,xs,Ss,Ds)||(t=[1,0,0,0,1,0,0,0,1],!As(t,bs,xs,Ss,Ds))?!1:(Os.crossVectors(Cs,ws),t=[Os.x,Os.y,Os.z],As(t,bs,xs,Ss,Ds))}clampPoint(e,t){return t.copy(e).clamp(this.min,this.max)}distanceToPoint(e){return this.clampPoint(e,vs).distanceTo(e)}getBoundingSphere(e){return this.isEmpty()?e.makeEmpty():(this.getCenter(e.center),e.radius=this.getSize(vs).length()*.5),e}intersect(e){return this.min.max(e.min),this.max.min(e.max),this.isEmpty()&&this.makeEmpty(),this}union(e){return this.min.min(e.min),this.max.max(e.max),this}applyMatrix4(e){return this.isEmpty()||(_s[0].set(this.min.x,this.min.y,this.min.z).applyMatrix4(e),_s[1].set(this.min.x,this.min.y,this.max.z).applyMatrix4(e),_s[2].set(this.min.x,this.max.y,this.min.z).applyMatrix4(e),_s[3].set(this.min.x,this.max.y,this.max.z).applyMatrix4(e),_s[4].set(this.max.x,this.min.y,this.min.z).applyMatrix4(e),_s[5].set(this.max.x,this.min.y,this.max.z).applyMatrix4(e),_s[6].set(this.max.x,this.max.y,this.min.z).applyMatrix4(e),_s[7].set(this.max.x,this.max.y,this.max.z).applyMatrix4(e),this.setFromPoints(_s)),this}translate(e){return this.min.add(e),this.max.add(e),this}equals(e){return e.min.equals(this.min)&&e.max.equals(this.max)}toJSON(){return{min:this.min.toArray(),max:this.max.toArray()}}fromJSON(e){return this.min.fromArray(e.min),this.max.fromArray(e.max),this}},_s=[new X,new X,new X,new X,new X,new X,new X,new X],vs=new X,ys=new gs,bs=new X,xs=new X,Ss=new X,Cs=new X,ws=new X,Ts=new X,Es=new X,Ds=new X,Os=new X,ks=new X;function As(e,t,n,r,i){for(let a=0,o=e.length-3;a<=o;a+=3){ks.fromArray(e,a);let o=i.x*Math.abs(ks.x)+i.y*Math.abs(ks.y)+i.z*Math.abs(ks.z),s=t.dot(ks),c=n.dot(ks),l=r.dot(ks);if(Math.max(-Math.max(s,c,l),Math.min(s,c,l))>o)return!1}return!0}var js=new X,Ms=new Y,Ns=0,Ps=class extends ba{constructor(e,t,n=!1){if(super(),Array.isArray(e))throw TypeError(`THREE.BufferAttribute: array should be a Typed Array.`);this.isBufferAttribute=!0,Object.defineProperty(this,"id",{value:Ns++}),this.name=``,this.array=e,this.itemSize=t,this.count=e===void 0?0:e.length/t,this.normalized=n,this.usage=ca,this.updateRanges=[],this.gpuType=Xr,this.version=0,this._normalizationScale=e===void 0?void 0:Wa(e)}onUploadCallback(){}set needsUpdate(e){e===!0&&this.version++}setUsage(e){return this.usage=e,this}addUpdateRange(e,t){this.updateRanges.push({start:e,count:t})}clearUpdateRanges(){this.updateRanges.length=0}copy(e){return this.name=e.name,this.array=new e.array.constructor(e.array),this.itemSize=e.itemSize,this.count=e.count,this.normalized=e.normalized,this.usage=e.usage,this.gpuType=e.gpuType,this._normalizationScale=e._normalizationScale,this}copyAt(e,t,n){e*=this.itemSize,n*=t.itemSize;for(let r=0,i=this.itemSize;r<i;r++)this.array[e+r]=t.array[n+r];return this}copyArray(e){return this.array.set(e),this}applyMatrix3(e){if(this.itemSize===2)for(let t=0,n=this.count;t<n;t++)Ms.fromBufferAttribute(this,t),Ms.applyMatrix3(e),this.setXY(t,Ms.x,Ms.y);else if(this.itemSize===3)for(let t=0,n=this.count;t<n;t++)js.fromBufferAttribute(this,t),js.applyMatrix3(e),this.setXYZ(t,js.x,js.y,js.z);return this}applyMatrix4(e){for(let t=0,n=this.count;t<n;t++)js.fromBufferAttribute(this,t),js.applyMatrix4(e),this.setXYZ(t,js.x,js.y,js.z);return this}applyNormalMatrix(e){for(let t=0,n=this.count;t<n;t++)js.fromBufferAttribute(this,t),js.applyNormalMatrix(e),this.setXYZ(t,js.x,js.y,js.z);return this}transformDirection(e){for(let t=0,n=this.count;t<n;t++)js.fromBufferAttribute(this,t),js.transformDirection(e),this.setXYZ(t,js.x,js.y,js.z);return this}set(e,t=0){return this.array.set(e,t),this}getComponent(e,t){let n=this.array[e*this.itemSize+t];return this.normalized&&(n=this._denormalize(n)),n}setComponent(e,t,n){return this.normalized&&(n=this._normalize(n)),this.array[e*this.itemSize+t]=n,this}getX(e){let t=this.array[e*this.itemSize];return this.normalized&&(t=this._denormalize(t)),t}setX(e,t){return this.normalized&&(t=this._normalize(t)),this.array[e*this.itemSize]=t,this}getY(e){let t=this.array[e*this.itemSize+1];return this.normalized&&(t=this._denormalize(t)),t}setY(e,t){return this.normalized&&(t=this._normalize(t)),this.array[e*this.itemSize+1]=t,this}getZ(e){let t=this.array[e*this.itemSize+2];return this.normalized&&(t=this._denormalize(t)),t}setZ(e,t){return this.normalized&&(t=this._normalize(t)),this.array[e*this.itemSize+2]=t,this}getW(e){let t=this.array[e*this.itemSize+3];return this.normalized&&(t=this._denormalize(t)),t}setW(e,t){return this.normalized&&(t=this._normalize(t)),this.array[e*this.itemSize+3]=t,this}setXY(e,t,n){return e*=this.itemSize,this.normalized&&(t=this._normalize(t),n=this._normalize(n)),this.array[e+0]=t,this.array[e+1]=n,this}setXYZ(e,t,n,r){return e*=this.itemSize,this.normalized&&(t=this._normalize(t),n=this._normalize(n),r=this._normalize(r)),this.array[e+0]=t,this.array[e+1]=n,this.array[e+2]=r,this}setXYZW(e,t,n,r,i){return e*=this.itemSize,this.normalized&&(t=this._normalize(t),n=this._normalize(n),r=this._normalize(r),i=this._normalize(i)),this.array[e+0]=t,this.array[e+1]=n,this.array[e+2]=r,this.array[e+3]=i,this}onUpload(e){return this.onUploadCallback=e,this}clone(){return new this.constructor(this.array,this.itemSize).copy(this)}toJSON(){let e={itemSize:this.itemSize,type:this.array.constructor.name,array:Array.from(this.array),normalized:this.normalized};return e.name=this.name,e.usage=this.usage,e.gpuType=this.gpuType,e}dispose(){this.dispatchEvent({type:`dispose`})}_denormalize(e){let t=this._normalizationScale;return t===void 0?Ga(e,this.array):Math.max(e/t,-1)}_normalize(e){let t=this._normalizationScale;return t===void 0?Ka(e,this.array):Math.round(e*t)}},Fs=class extends Ps{constructor(e,t,n){super(new Uint16Array(e),t,n)}},Is=class extends Ps{constructor(e,t,n){super(new Uint32Array(e),t,n)}},Ls=class extends Ps{constructor(e,t,n){super(new Float32Array(e),t,n)}},Rs=new gs,zs=new X,Bs=new X,Vs=class{constructor(e=new X,t=-1){this.isSphere=!0,this.center=e,this.radius=t}set(e,t){return this.center.copy(e),this.radius=t,this}setFromPoints(e,t){let n=this.center;t===void 0?Rs.setFromPoints(e).getCenter(n):n.copy(t);let r=0;for(let t=0,i=e.length;t<i;t++)r=Math.max(r,n.distanceToSquared(e[t]));return this.radius=Math.sqrt(r),this}copy(e){return this.center.copy(e.center),this.radius=e.radius,this}isEmpty(){return this.radius<0}makeEmpty(){return this.center.set(0,0,0),this.radius=-1,this}containsPoint(e){return e.distanceToSquared(this.center)<=this.radius*this.radius}distanceToPoint(e){return e.distanceTo(this.center)-this.radius}intersectsSphere(e){let t=this.radius+e.radius;return e.center.distanceToSquared(this.center)<=t*t}intersectsBox(e){return e.intersectsSphere(this)}intersectsPlane(e){return Math.abs(e.distanceToPoint(this.center))<=this.radius}clampPoint(e,t){let n=this.center.distanceToSquared(e);return t.copy(e),n>this.radius*this.radius&&(t.sub(this.center).normalize(),t.multiplyScalar(this.radius).add(this.center)),t}getBoundingBox(e){return this.isEmpty()?(e.makeEmpty(),e):(e.set(this.center,this.center),e.expandByScalar(this.radius),e)}applyMatrix4(e){return this.center.applyMatrix4(e),this.radius*=e.getMaxScaleOnAxis(),this}translate(e){return this.center.add(e),this}expandByPoint(e){if(this.isEmpty())return this.center.copy(e),this.radius=0,this;zs.subVectors(e,this.center);let t=zs.lengthSq();if(t>this.radius*this.radius){let e=Math.sqrt(t),n=(e-this.radius)*.5;this.center.addScaledVector(zs,n/e),this.radius+=n}return this}union(e){return e.isEmpty()?this:this.isEmpty()?(this.copy(e),this):(this.center.equals(e.center)===!0?this.radius=Math.max(this.radius,e.radius):(Bs.subVectors(e.center,this.center).setLength(e.radius),this.expandByPoint(zs.copy(e.center).add(Bs)),this.expandByPoint(zs.copy(e.center).sub(Bs))),this)}equals(e){return e.center.equals(this.center)&&e.radius===this.radius}clone(){return new this.constructor().copy(this)}toJSON(){return{radius:this.radius,center:this.center.toArray()}}fromJSON(e){return this.radius=e.radius,this.center.fromArray(e.center),this}},Hs=0,Us=new vo,Ws=new Go,Gs=new X,Ks=new gs,qs=new gs,Js=new X,Ys=class e extends ba{constructor(){super(),this.isBufferGeometry=!0,Object.defineProperty(this,"id",{value:Hs++}),this.uuid=Ta(),this.name=``,this.type=`BufferGeometry`,this.index=null,this.indirect=null,this.indirectOffset=0,this.attributes={},this.morphAttributes={},this.morphTargetsRelative=!1,this.groups=[],this.boundingBox=null,this.boundingSphere=null,this.drawRange={start:0,count:1/0},this.userData={},this._transformed=!1}getIndex(){return this.index}setIndex(e){return this.index=Array.isArray(e)?new(ua(e)?Is:Fs)(e,1):e,this}setIndirect(e,t=0){return this.indirect=e,this.indirectOffset=t,this}getIndirect(){return this.indirect}getAttribute(e){return this.attributes[e]}setAttribute(e,t){return this.attributes[e]=t,this}deleteAttribute(e){return delete this.attributes[e],this}hasAttribute(e){return this.attributes[e]!==void 0}addGroup(e,t,n=0){this.groups.push({start:e,count:t,materialIndex:n})}clearGroups(){this.groups=[]}setDrawRange(e,t){this.drawRange.start=e,this.drawRange.count=t}applyMatrix4(e){let t=this.attributes.position;t!==void 0&&(t.applyMatrix4(e),t.needsUpdate=!0);let n=this.attributes.normal;if(n!==void 0){let t=new Z().getNormalMatrix(e);n.applyNormalMatrix(t),n.needsUpdate=!0}let r=this.attributes.tangent;return r!==void 0&&(r.transformDirection(e),r.needsUpdate=!0),this.boundingBox!==null&&this.computeBoundingBox(),this.boundingSphere!==null&&this.computeBoundingSphere(),this._transformed=!0,this}applyQuaternion(e){return Us.makeRotationFromQuaternion(e),this.applyMatrix4(Us),this}rotateX(e){return Us.makeRotationX(e),this.applyMatrix4(Us),this}rotateY(e){return Us.makeRotationY(e),this.applyMatrix4(Us),this}rotateZ(e){return Us.makeRotationZ(e),this.applyMatrix4(Us),this}translate(e,t,n){return Us.makeTranslation(e,t,n),this.applyMatrix4(Us),this}scale(e,t,n){return Us.makeScale(e,t,n),this.applyMatrix4(Us),this}lookAt(e){return Ws.lookAt(e),Ws.updateMatrix(),this.applyMatrix4(Ws.matrix),this}center(){return this.computeBoundingBox(),this.boundingBox.getCenter(Gs).negate(),this.translate(Gs.x,Gs.y,Gs.z),this}setFromPoints(e){let t=this.getAttribute(`position`);if(t===void 0){let t=[];for(let n=0,r=e.length;n<r;n++){let r=e[n];t.push(r.x,r.y,r.z||0)}this.setAttribute(`position`,new Ls(t,3))}else{let n=Math.min(e.length,t.count);for(let r=0;r<n;r++){let n=e[r];t.setXYZ(r,n.x,n.y,n.z||0)}e.length>t.count&&K(`BufferGeometry: Buffer size too small for points data. Use .dispose() and create a new geometry.`),t.needsUpdate=!0}return this}computeBoundingBox(){this.boundingBox===null&&(this.boundingBox=new gs);let e=this.attributes.position,t=this.morphAttributes.position;if(e&&e.isGLBufferAttribute)q(`BufferGeometry.computeBoundingBox(): GLBufferAttribute requires a manual bounding box.`,this),this.boundingBox.set(new X(-1/0,-1/0,-1/0),new X(1/0,1/0,1/0));else{if(e!==void 0){if(this.boundingBox.setFromBufferAttribute(e),t)for(let e=0,n=t.length;e<n;e++){let n=t[e];Ks.setFromBufferAttribute(n),this.morphTargetsRelative?(Js.addVectors(this.boundingBox.min,Ks.min),this.boundingBox.expandByPoint(Js),Js.addVectors(this.boundingBox.max,Ks.max),this.boundingBox.expandByPoint(Js)):(this.boundingBox.expandByPoint(Ks.min),this.boundingBox.expandByPoint(Ks.max))}}else this.boundingBox.makeEmpty();(isNaN(this.boundingBox.min.x)||isNaN(this.boundingBox.min.y)||isNaN(this.boundingBox.min.z))&&q(`BufferGeometry.computeBoundingBox(): Computed min/max have NaN values. The "position" attribute is likely to have NaN values.`,this)}}computeBoundingSphere(){this.boundingSphere===null&&(this.boundingSphere=new Vs);let e=this.attributes.position,t=this.morphAttributes.position;if(e&&e.isGLBufferAttribute)q(`BufferGeometry.computeBoundingSphere(): GLBufferAttribute requires a manual bounding sphere.`,this),this.boundingSphere.set(new X,1/0);else if(e){let n=this.boundingSphere.center;if(Ks.setFromBufferAttribute(e),t)for(let e=0,n=t.length;e<n;e++){let n=t[e];qs.setFromBufferAttribute(n),this.morphTargetsRelative?(Js.addVectors(Ks.min,qs.min),Ks.expandByPoint(Js),Js.addVectors(Ks.max,qs.max),Ks.expandByPoint(Js)):(Ks.expandByPoint(qs.min),Ks.expandByPoint(qs.max))}Ks.getCenter(n);let r=0;for(let t=0,i=e.count;t<i;t++)Js.fromBufferAttribute(e,t),r=Math.max(r,n.distanceToSquared(Js));if(t)for(let i=0,a=t.length;i<a;i++){let a=t[i],o=this.morphTargetsRelative;for(let t=0,i=a.count;t<i;t++)Js.fromBufferAttribute(a,t),o&&(Gs.fromBufferAttribute(e,t),Js.add(Gs)),r=Math.max(r,n.distanceToSquared(Js))}this.boundingSphere.radius=Math.sqrt(r),isNaN(this.boundingSphere.radius)&&q(`BufferGeometry.computeBoundingSphere(): Computed radius is NaN. The "position" attribute is likely to have NaN values.`,this)}}computeTangents(){let e=this.index,t=this.attributes;if(e===null||t.position===void 0||t.normal===void 0||t.uv===void 0){q(`BufferGeometry: .computeTangents() failed. Missing required attributes (index, position, normal or uv)`);return}let n=t.position,r=t.normal,i=t.uv,a=this.getAttribute(`tangent`);(a===void 0||a.count!==n.count)&&(a=new Ps(new Float32Array(4*n.count),4),this.setAttribute(`tangent`,a));let o=[],s=[],c=new Uint8Array(n.count);for(let e=0;e<n.count;e++)o[e]=new X,s[e]=new X;let l=new X,u=new X,d=new X,f=new Y,p=new Y,m=new Y,h=new X,g=new X;function _(e,t,r){c[e]=c[t]=c[r]=1,l.fromBufferAttribute(n,e),u.fromBufferAttribute(n,t),d.fromBufferAttribute(n,r),f.fromBufferAttribute(i,e),p.fromBufferAttribute(i,t),m.fromBufferAttribute(i,r),u.sub(l),d.sub(l),p.sub(f),m.sub(f);let a=1/(p.x*m.y-m.x*p.y);isFinite(a)&&(h.copy(u).multiplyScalar(m.y).addScaledVector(d,-p.y).multiplyScalar(a),g.copy(d).multiplyScalar(p.x).addScaledVector(u,-m.x).multiplyScalar(a),o[e].add(h),o[t].add(h),o[r].add(h),s[e].add(g),s[t].add(g),s[r].add(g))}let v=this.groups;v.length===0&&(v=[{start:0,count:e.count}]);for(let t=0,n=v.length;t<n;++t){let n=v[t],r=n.start,i=n.count;for(let t=r,n=r+i;t<n;t+=3)_(e.getX(t+0),e.getX(t+1),e.getX(t+2))}let y=new X,b=new X,x=new X,S=new X;function C(e){x.fromBufferAttribute(r,e),S.copy(x);let t=o[e];y.copy(t),y.sub(x.multiplyScalar(x.dot(t))).normalize(),b.crossVectors(S,t);let n=b.dot(s[e])<0?-1:1;a.setXYZW(e,y.x,y.y,y.z,n)}for(let e=0,t=n.count;e<t;++e)c[e]&&C(e);this._transformed=!0}computeVertexNormals(){let e=this.index,t=this.getAttribute(`position`);if(t!==void 0){let n=this.getAttribute(`normal`);if(n===void 0||n.count!==t.count)n=new Ps(new Float32Array(t.count*3),3),this.setAttribute(`normal`,n);else for(let e=0,t=n.count;e<t;e++)n.setXYZ(e,0,0,0);let r=new X,i=new X,a=new X,o=new X,s=new X,c=new X,l=new X,u=new X;if(e)for(let d=0,f=e.count;d<f;d+=3){let f=e.getX(d+0),p=e.getX(d+1),m=e.getX(d+2);r.fromBufferAttribute(t,f),i.fromBufferAttribute(t,p),a.fromBufferAttribute(t,m),l.subVectors(a,i),u.subVectors(r,i),l.cross(u),o.fromBufferAttribute(n,f),s.fromBufferAttribute(n,p),c.fromBufferAttribute(n,m),o.add(l),s.add(l),c.add(l),n.setXYZ(f,o.x,o.y,o.z),n.setXYZ(p,s.x,s.y,s.z),n.setXYZ(m,c.x,c.y,c.z)}else for(let e=0,o=t.count;e<o;e+=3)r.fromBufferAttribute(t,e+0),i.fromBufferAttribute(t,e+1),a.fromBufferAttribute(t,e+2),l.subVectors(a,i),u.subVectors(r,i),l.cross(u),n.setXYZ(e+0,l.x,l.y,l.z),n.setXYZ(e+1,l.x,l.y,l.z),n.setXYZ(e+2,l.x,l.y,l.z);this.normalizeNormals(),n.needsUpdate=!0}}normalizeNormals(){let e=this.attributes.normal;for(let t=0,n=e.count;t<n;t++)Js.fromBufferAttribute(e,t),Js.normalize(),e.setXYZ(t,Js.x,Js.y,Js.z)}toNonIndexed(){function t(e,t){let n=e.array,r=e.itemSize,i=e.normalized,a=new n.constructor(t.length*r),o=0,s=0;for(let i=0,c=t.length;i<c;i++){o=e.isInterleavedBufferAttribute?t[i]*e.data.stride+e.offset:t[i]*r;for(let e=0;e<r;e++)a[s++]=n[o++]}return new Ps(a,r,i)}if(this.index===null)return K(`BufferGeometry.toNonIndexed(): BufferGeometry is already non-indexed.`),this;let n=new e,r=this.index.array,i=this.attributes;for(let e in i){let a=i[e],o=t(a,r);n.setAttribute(e,o)}let a=this.morphAttributes;for(let e in a){let i=[],o=a[e];for(let e=0,n=o.length;e<n;e++){let n=o[e],a=t(n,r);i.push(a)}n.morphAttributes[e]=i}n.morphTargetsRelative=this.morphTargetsRelative;let o=this.groups;for(let e=0,t=o.length;e<t;e++){let t=o[e];n.addGroup(t.start,t.count,t.materialIndex)}return n}toJSON(){let e={metadata:{version:4.7,type:`BufferGeometry`,generator:`BufferGeometry.toJSON`}};if(e.uuid=this.uuid,e.type=this.parameters!==void 0&&this._transformed===!0?`BufferGeometry`:this.type,e.name=this.name,Object.keys(this.userData).length>0&&(e.userData=this.userData),this.parameters!==void 0&&this._transformed!==!0){let t=this.parameters;for(let n in t)t[n]!==void 0&&(e[n]=t[n]);return e}e.data={attributes:{}};let t=this.index;t!==null&&(e.data.index={type:t.array.constructor.name,array:Array.prototype.slice.call(t.array)});let n=this.attributes;for(let t in n){let r=n[t];e.data.attributes[t]=r.toJSON(e.data)}let r={},i=!1;for(let t in this.morphAttributes){let n=this.morphAttributes[t],a=[];for(let t=0,r=n.length;t<r;t++){let r=n[t];a.push(r.toJSON(e.data))}a.length>0&&(r[t]=a,i=!0)}i&&(e.data.morphAttributes=r,e.data.morphTargetsRelative=this.morphTargetsRelative);let a=this.groups;a.length>0&&(e.data.groups=JSON.parse(JSON.stringify(a)));let o=this.boundingSphere;return o!==null&&(e.data.boundingSphere=o.toJSON()),e}clone(){return new this.constructor().copy(this)}copy(e){this.index=null,this.attributes={},this.morphAttributes={},this.groups=[],this.boundingBox=null,this.boundingSphere=null;let t={};this.name=e.name;let n=e.index;n!==null&&this.setIndex(n.clone());let r=e.attributes;for(let e in r){let n=r[e];this.setAttribute(e,n.clone(t))}let i=e.morphAttributes;for(let e in i){let n=[],r=i[e];for(let e=0,i=r.length;e<i;e++)n.push(r[e].clone(t));this.morphAttributes[e]=n}this.morphTargetsRelative=e.morphTargetsRelative;let a=e.groups;for(let e=0,t=a.length;e<t;e++){let t=a[e];this.addGroup(t.start,t.count,t.materialIndex)}let o=e.boundingBox;o!==null&&(this.boundingBox=o.clone());let s=e.boundingSphere;return s!==null&&(this.boundingSphere=s.clone()),this.drawRange.start=e.drawRange.start,this.drawRange.count=e.drawRange.count,this.userData=e.userData,this._transformed=e._transformed,this}dispose(){this.dispatchEvent({type:`dispose`})}},Xs=new X,Zs=new X,Qs=new Z,$s=class{constructor(e=new X(1,0,0),t=0){this.isPlane=!0,this.normal=e,this.constant=t}set(e,t){return this.normal.copy(e),this.constant=t,this}setComponents(e,t,n,r){return this.normal.set(e,t,n),this.constant=r,this}setFromNormalAndCoplanarPoint(e,t){return this.normal.copy(e),this.constant=-t.dot(this.normal),this}setFromCoplanarPoints(e,t,n){let r=Xs.subVectors(n,t).cross(Zs.subVectors(e,t)).normalize();return this.setFromNormalAndCoplanarPoint(r,e),this}copy(e){return this.normal.copy(e.normal),this.constant=e.constant,this}normalize(){let e=1/this.normal.length();return this.normal.multiplyScalar(e),this.constant*=e,this}negate(){return this.constant*=-1,this.normal.negate(),this}distanceToPoint(e){return this.normal.dot(e)+this.constant}distanceToSphere(e){return this.distanceToPoint(e.center)-e.radius}projectPoint(e,t){return t.copy(e).addScaledVector(this.normal,-this.distanceToPoint(e))}intersectLine(e,t,n=!0){let r=e.delta(Xs),i=this.normal.dot(r);if(i===0)return this.distanceToPoint(e.start)===0?t.copy(e.start):null;let a=-(e.start.dot(this.normal)+this.constant)/i;return n===!0&&(a<0||a>1)?null:t.copy(e.start).addScaledVector(r,a)}intersectsLine(e){let t=this.distanceToPoint(e.start),n=this.distanceToPoint(e.end);return t<0&&n>0||n<0&&t>0}intersectsBox(e){return e.intersectsPlane(this)}intersectsSphere(e){return e.intersectsPlane(this)}coplanarPoint(e){return e.copy(this.normal).multiplyScalar(-this.constant)}applyMatrix4(e,t){let n=t||Qs.getNormalMatrix(e),r=this.coplanarPoint(Xs).applyMatrix4(e),i=this.normal.applyMatrix3(n).normalize();return this.constant=-r.dot(i),this}translate(e){return this.constant-=e.dot(this.normal),this}equals(e){return e.normal.equals(this.normal)&&e.constant===this.constant}clone(){return new this.constructor().copy(this)}toJSON(){return{normal:this.normal.toArray(),constant:this.constant}}fromJSON(e){return this.normal.fromArray(e.normal),this.constant=e.constant,this}},ec=0,tc=class extends ba{constructor(){super(),this.isMaterial=!0,Object.defineProperty(this,"id",{value:ec++}),this.uuid=Ta(),this.name=``,this.type=`Material`,this.blending=1,this.side=0,this.vertexColors=!1,this.opacity=1,this.transparent=!1,this.alphaHash=!1,this.blendSrc=204,this.blendDst=205,this.blendEquation=100,this.blendSrcAlpha=null,this.blendDstAlpha=null,this.blendEquationAlpha=null,this.blendColor=new $o(0,0,0),this.blendAlpha=0,this.depthFunc=3,this.depthTest=!0,this.depthWrite=!0,this.stencilWriteMask=255,this.stencilFunc=519,this.stencilRef=0,this.stencilFuncMask=255,this.stencilFail=sa,this.stencilZFail=sa,this.stencilZPass=sa,this.stencilWrite=!1,this.clippingPlanes=null,this.clipIntersection=!1,this.clipShadows=!1,this.shadowSide=null,this.colorWrite=!0,this.precision=null,this.polygonOffset=!1,this.polygonOffsetFactor=0,this.polygonOffsetUnits=0,this.dithering=!1,this.alphaToCoverage=!1,this.premultipliedAlpha=!1,this.forceSinglePass=!1,this.allowOverride=!0,this.visible=!0,this.toneMapped=!0,this.userData={},this.version=0,this._alphaTest=0}get alphaTest(){return this._alphaTest}set alphaTest(e){this._alphaTest>0!=e>0&&this.version++,this._alphaTest=e}onBeforeRender(){}onBeforeCompile(){}customProgramCacheKey(){return this.onBeforeCompile.toString()}setValues(e){if(e!==void 0)for(let t in e){let n=e[t];if(n===void 0){K(`Material: parameter '${t}' has value of undefined.`);continue}let r=this[t];r===void 0?K(`Material: '${t}' is not a property of THREE.${this.type}.`):r&&r.isColor?r.set(n):r&&r.isVector2&&n&&n.isVector2||r&&r.isEuler&&n&&n.isEuler||r&&r.isVector3&&n&&n.isVector3?r.copy(n):this[t]=n}}toJSON(e){let t=e===void 0||typeof e==`string`;t&&(e={textures:{},images:{}});let n={metadata:{version:4.7,type:`Material`,generator:`Material.toJSON`}};n.uuid=this.uuid,n.type=this.type,n.blending=this.blending,n.side=this.side,n.shadowSide=this.shadowSide,n.vertexColors=this.vertexColors,n.opacity=this.opacity,n.transparent=this.transparent,n.blendSrc=this.blendSrc,n.blendDst=this.blendDst,n.blendEquation=this.blendEquation,n.blendSrcAlpha=this.blendSrcAlpha,n.blendDstAlpha=this.blendDstAlpha,n.blendEquationAlpha=this.blendEquationAlpha,n.blendColor=this.blendColor.getHex(),n.blendAlpha=this.blendAlpha,n.depthFunc=this.depthFunc,n.depthTest=this.depthTest,n.depthWrite=this.depthWrite,n.colorWrite=this.colorWrite,n.clipIntersection=this.clipIntersection,n.clipShadows=this.clipShadows,n.stencilWriteMask=this.stencilWriteMask,n.stencilFunc=this.stencilFunc,n.stencilRef=this.stencilRef,n.stencilFuncMask=this.stencilFuncMask,n.stencilFail=this.stencilFail,n.stencilZFail=this.stencilZFail,n.stencilZPass=this.stencilZPass,n.stencilWrite=this.stencilWrite,n.polygonOffset=this.polygonOffset,n.polygonOffsetFactor=this.polygonOffsetFactor,n.polygonOffsetUnits=this.polygonOffsetUnits,n.dithering=this.dithering,n.alphaTest=this.alphaTest,n.alphaHash=this.alphaHash,n.alphaToCoverage=this.alphaToCoverage,n.premultipliedAlpha=this.premultipliedAlpha,n.forceSinglePass=this.forceSinglePass,n.allowOverride=this.allowOverride,n.visible=this.visible,n.toneMapped=this.toneMapped,n.name=this.name,this.color&&this.color.isColor&&(n.color=this.color.getHex()),this.roughness!==void 0&&(n.roughness=this.roughness),this.metalness!==void 0&&(n.metalness=this.metalness),this.sheen!==void 0&&(n.sheen=this.sheen),this.sheenColor&&this.sheenColor.isColor&&(n.sheenColor=this.sheenColor.getHex()),this.sheenRoughness!==void 0&&(n.sheenRoughness=this.sheenRoughness),this.emissive&&this.emissive.isColor&&(n.emissive=this.emissive.getHex()),this.emissiveIntensity!==void 0&&(n.emissiveIntensity=this.emissiveIntensity),this.specular&&this.specular.isColor&&(n.specular=this.specular.getHex()),this.specularIntensity!==void 0&&(n.specularIntensity=this.specularIntensity),this.specularColor&&this.specularColor.isColor&&(n.specularColor=this.specularColor.getHex()),this.shininess!==void 0&&(n.shininess=this.shininess),this.clearcoat!==void 0&&(n.clearcoat=this.clearcoat),this.clearcoatRoughness!==void 0&&(n.clearcoatRoughness=this.clearcoatRoughness),this.diffuseRoughness!==void 0&&(n.diffuseRoughness=this.diffuseRoughness),this.diffuseRoughnessMap&&this.diffuseRoughnessMap.isTexture&&(n.diffuseRoughnessMap=this.diffuseRoughnessMap.toJSON(e).uuid),this.clearcoatMap&&this.clearcoatMap.isTexture&&(n.clearcoatMap=this.clearcoatMap.toJSON(e).uuid),this.clearcoatRoughnessMap&&this.clearcoatRoughnessMap.isTexture&&(n.clearcoatRoughnessMap=this.clearcoatRoughnessMap.toJSON(e).uuid),this.clearcoatNormalMap&&this.clearcoatNormalMap.isTexture&&(n.clearcoatNormalMap=this.clearcoatNormalMap.toJSON(e).uuid,n.clearcoatNormalScale=this.clearcoatNormalScale.toArray()),this.sheenColorMap&&this.sheenColorMap.isTexture&&(n.sheenColorMap=this.sheenColorMap.toJSON(e).uuid),this.sheenRoughnessMap&&this.sheenRoughnessMap.isTexture&&(n.sheenRoughnessMap=this.sheenRoughnessMap.toJSON(e).uuid),this.dispersion!==void 0&&(n.dispersion=this.dispersion),this.retroreflectivity!==void 0&&(n.retroreflectivity=this.retroreflectivity),this.iridescence!==void 0&&(n.iridescence=this.iridescence),this.iridescenceIOR!==void 0&&(n.iridescenceIOR=this.iridescenceIOR),this.iridescenceThicknessMinimum!==void 0&&(n.iridescenceThicknessMinimum=this.iridescenceThicknessMinimum),this.iridescenceThicknessMaximum!==void 0&&(n.iridescenceThicknessMaximum=this.iridescenceThicknessMaximum),this.iridescenceMap&&this.iridescenceMap.isTexture&&(n.iridescenceMap=this.iridescenceMap.toJSON(e).uuid),this.iridescenceThicknessMap&&this.iridescenceThicknessMap.isTexture&&(n.iridescenceThicknessMap=this.iridescenceThicknessMap.toJSON(e).uuid),this.anisotropy!==void 0&&(n.anisotropy=this.anisotropy),this.anisotropyRotation!==void 0&&(n.anisotropyRotation=this.anisotropyRotation),this.anisotropyMap&&this.anisotropyMap.isTexture&&(n.anisotropyMap=this.anisotropyMap.toJSON(e).uuid),this.map&&this.map.isTexture&&(n.map=this.map.toJSON(e).uuid),this.matcap&&this.matcap.isTexture&&(n.matcap=this.matcap.toJSON(e).uuid),this.alphaMap&&this.alphaMap.isTexture&&(n.alphaMap=this.alphaMap.toJSON(e).uuid),this.lightMap&&this.lightMap.isTexture&&(n.lightMap=this.lightMap.toJSON(e).uuid,n.lightMapIntensity=this.lightMapIntensity),this.aoMap&&this.aoMap.isTexture&&(n.aoMap=this.aoMap.toJSON(e).uuid,n.aoMapIntensity=this.aoMapIntensity),this.bumpMap&&this.bumpMap.isTexture&&(n.bumpMap=this.bumpMap.toJSON(e).uuid,n.bumpScale=this.bumpScale),this.normalMap&&this.normalMap.isTexture&&(n.normalMap=this.normalMap.toJSON(e).uuid,n.normalMapType=this.normalMapType,n.normalScale=this.normalScale.toArray()),this.displacementMap&&this.displacementMap.isTexture&&(n.displacementMap=this.displacementMap.toJSON(e).uuid,n.displacementScale=this.displacementScale,n.displacementBias=this.displacementBias),this.roughnessMap&&this.roughnessMap.isTexture&&(n.roughnessMap=this.roughnessMap.toJSON(e).uuid),this.metalnessMap&&this.metalnessMap.isTexture&&(n.metalnessMap=this.metalnessMap.toJSON(e).uuid),this.emissiveMap&&this.emissiveMap.isTexture&&(n.emissiveMap=this.emissiveMap.toJSON(e).uuid),this.specularMap&&this.specularMap.isTexture&&(n.specularMap=this.specularMap.toJSON(e).uuid),this.specularIntensityMap&&this.specularIntensityMap.isTexture&&(n.specularIntensityMap=this.specularIntensityMap.toJSON(e).uuid),this.specularColorMap&&this.specularColorMap.isTexture&&(n.specularColorMap=this.specularColorMap.toJSON(e).uuid),this.envMap&&this.envMap.isTexture&&(n.envMap=this.envMap.toJSON(e).uuid,this.combine!==void 0&&(n.combine=this.combine)),this.envMapRotation!==void 0&&(n.envMapRotation=this.envMapRotation.toArray()),this.envMapIntensity!==void 0&&(n.envMapIntensity=this.envMapIntensity),this.reflectivity!==void 0&&(n.reflectivity=this.reflectivity),this.refractionRatio!==void 0&&(n.refractionRatio=this.refractionRatio),this.gradientMap&&this.gradientMap.isTexture&&(n.gradientMap=this.gradientMap.toJSON(e).uuid),this.transmission!==void 0&&(n.transmission=this.transmission),this.transmissionMap&&this.transmissionMap.isTexture&&(n.transmissionMap=this.transmissionMap.toJSON(e).uuid),this.thickness!==void 0&&(n.thickness=this.thickness),this.thicknessMap&&this.thicknessMap.isTexture&&(n.thicknessMap=this.thicknessMap.toJSON(e).uuid),this.attenuationDistance!==void 0&&(n.attenuationDistance=this.attenuationDistance),this.attenuationColor!==void 0&&(n.attenuationColor=this.attenuationColor.getHex()),this.size!==void 0&&(n.size=this.size),this.sizeAttenuation!==void 0&&(n.sizeAttenuation=this.sizeAttenuation),Array.isArray(this.clippingPlanes)&&this.clippingPlanes.length>0&&(n.clippingPlanes=this.clippingPlanes.map(e=>e.toJSON())),this.rotation!==void 0&&(n.rotation=this.rotation),this.depthPacking!==void 0&&(n.depthPacking=this.depthPacking),this.linewidth!==void 0&&(n.linewidth=this.linewidth),this.linecap!==void 0&&(n.linecap=this.linecap),this.linejoin!==void 0&&(n.linejoin=this.linejoin),this.dashSize!==void 0&&(n.dashSize=this.dashSize),this.gapSize!==void 0&&(n.gapSize=this.gapSize),this.scale!==void 0&&(n.scale=this.scale),this.wireframe!==void 0&&(n.wireframe=this.wireframe),this.wireframeLinewidth!==void 0&&(n.wireframeLinewidth=this.wireframeLinewidth),this.wireframeLinecap!==void 0&&(n.wireframeLinecap=this.wireframeLinecap),this.wireframeLinejoin!==void 0&&(n.wireframeLinejoin=this.wireframeLinejoin),this.flatShading!==void 0&&(n.flatShading=this.flatShading),this.fog!==void 0&&(n.fog=this.fog),Object.keys(this.userData).length>0&&(n.userData=this.userData);function r(e){let t=[];for(let n in e){let r=e[n];delete r.metadata,t.push(r)}return t}if(t){let t=r(e.textures),i=r(e.images);t.length>0&&(n.textures=t),i.length>0&&(n.images=i)}return n}fromJSON(e,t){if(e.uuid!==void 0&&(this.uuid=e.uuid),e.name!==void 0&&(this.name=e.name),e.color!==void 0&&this.color!==void 0&&this.color.setHex(e.color),e.roughness!==void 0&&(this.roughness=e.roughness),e.metalness!==void 0&&(this.metalness=e.metalness),e.sheen!==void 0&&(this.sheen=e.sheen),e.sheenColor!==void 0&&(this.sheenColor=new $o().setHex(e.sheenColor)),e.sheenRoughness!==void 0&&(this.sheenRoughness=e.sheenRoughness),e.emissive!==void 0&&this.emissive!==void 0&&this.emissive.setHex(e.emissive),e.specular!==void 0&&this.specular!==void 0&&this.specular.setHex(e.specular),e.specularIntensity!==void 0&&(this.specularIntensity=e.specularIntensity),e.specularColor!==void 0&&this.specularColor!==void 0&&this.specularColor.setHex(e.specularColor),e.shininess!==void 0&&(this.shininess=e.shininess),e.clearcoat!==void 0&&(this.clearcoat=e.clearcoat),e.clearcoatRoughness!==void 0&&(this.clearcoatRoughness=e.clearcoatRoughness),e.diffuseRoughness!==void 0&&(this.diffuseRoughness=e.diffuseRoughness),e.dispersion!==void 0&&(this.dispersion=e.dispersion),e.retroreflectivity!==void 0&&(this.retroreflectivity=e.retroreflectivity),e.iridescence!==void 0&&(this.iridescence=e.iridescence),e.iridescenceIOR!==void 0&&(this.iridescenceIOR=e.iridescenceIOR),e.iridescenceThicknessMinimum!==void 0&&(this.iridescenceThicknessMinimum=e.iridescenceThicknessMinimum),e.iridescenceThicknessMaximum!==void 0&&(this.iridescenceThicknessMaximum=e.iridescenceThicknessMaximum),e.iridescenceThicknessRange!==void 0&&(this.iridescenceThicknessMinimum=e.iridescenceThicknessRange[0],this.iridescenceThicknessMaximum=e.iridescenceThicknessRange[1]),e.transmission!==void 0&&(this.transmission=e.transmission),e.thickness!==void 0&&(this.thickness=e.thickness),e.attenuationDistance!==void 0&&(this.attenuationDistance=e.attenuationDistance),e.attenuationColor!==void 0&&this.attenuationColor!==void 0&&this.attenuationColor.setHex(e.attenuationColor),e.anisotropy!==void 0&&(this.anisotropy=e.anisotropy),e.anisotropyRotation!==void 0&&(this.anisotropyRotation=e.anisotropyRotation),e.fog!==void 0&&(this.fog=e.fog),e.flatShading!==void 0&&(this.flatShading=e.flatShading),e.blending!==void 0&&(this.blending=e.blending),e.combine!==void 0&&(this.combine=e.combine),e.side!==void 0&&(this.side=e.side),e.shadowSide!==void 0&&(this.shadowSide=e.shadowSide),e.opacity!==void 0&&(this.opacity=e.opacity),e.transparent!==void 0&&(this.transparent=e.transparent),e.alphaTest!==void 0&&(this.alphaTest=e.alphaTest),e.alphaHash!==void 0&&(this.alphaHash=e.alphaHash),e.depthFunc!==void 0&&(this.depthFunc=e.depthFunc),e.depthTest!==void 0&&(this.depthTest=e.depthTest),e.depthWrite!==void 0&&(this.depthWrite=e.depthWrite),e.colorWrite!==void 0&&(this.colorWrite=e.colorWrite),e.clippingPlanes!==void 0&&(this.clippingPlanes=e.clippingPlanes.map(e=>new $s().fromJSON(e))),e.clipIntersection!==void 0&&(this.clipIntersection=e.clipIntersection),e.clipShadows!==void 0&&(this.clipShadows=e.clipShadows),e.depthPacking!==void 0&&(this.depthPacking=e.depthPacking),e.blendSrc!==void 0&&(this.blendSrc=e.blendSrc),e.blendDst!==void 0&&(this.blendDst=e.blendDst),e.blendEquation!==void 0&&(this.blendEquation=e.blendEquation),e.blendSrcAlpha!==void 0&&(this.blendSrcAlpha=e.blendSrcAlpha),e.blendDstAlpha!==void 0&&(this.blendDstAlpha=e.blendDstAlpha),e.blendEquationAlpha!==void 0&&(this.blendEquationAlpha=e.blendEquationAlpha),e.blendColor!==void 0&&this.blendColor!==void 0&&this.blendColor.setHex(e.blendColor),e.blendAlpha!==void 0&&(this.blendAlpha=e.blendAlpha),e.stencilWriteMask!==void 0&&(this.stencilWriteMask=e.stencilWriteMask),e.stencilFunc!==void 0&&(this.stencilFunc=e.stencilFunc),e.stencilRef!==void 0&&(this.stencilRef=e.stencilRef),e.stencilFuncMask!==void 0&&(this.stencilFuncMask=e.stencilFuncMask),e.stencilFail!==void 0&&(this.stencilFail=e.stencilFail),e.stencilZFail!==void 0&&(this.stencilZFail=e.stencilZFail),e.stencilZPass!==void 0&&(this.stencilZPass=e.stencilZPass),e.stencilWrite!==void 0&&(this.stencilWrite=e.stencilWrite),e.wireframe!==void 0&&(this.wireframe=e.wireframe),e.wireframeLinewidth!==void 0&&(this.wireframeLinewidth=e.wireframeLinewidth),e.wireframeLinecap!==void 0&&(this.wireframeLinecap=e.wireframeLinecap),e.wireframeLinejoin!==void 0&&(this.wireframeLinejoin=e.wireframeLinejoin),e.rotation!==void 0&&(this.rotation=e.rotation),e.linewidth!==void 0&&(this.linewidth=e.linewidth),e.linecap!==void 0&&(this.linecap=e.linecap),e.linejoin!==void 0&&(this.linejoin=e.linejoin),e.dashSize!==void 0&&(this.dashSize=e.dashSize),e.gapSize!==void 0&&(this.gapSize=e.gapSize),e.scale!==void 0&&(this.scale=e.scale),e.polygonOffset!==void 0&&(this.polygonOffset=e.polygonOffset),e.polygonOffsetFactor!==void 0&&(this.polygonOffsetFactor=e.polygonOffsetFactor),e.polygonOffsetUnits!==void 0&&(this.polygonOffsetUnits=e.polygonOffsetUnits),e.dithering!==void 0&&(this.dithering=e.dithering),e.alphaToCoverage!==void 0&&(this.alphaToCoverage=e.alphaToCoverage),e.premultipliedAlpha!==void 0&&(this.premultipliedAlpha=e.premultipliedAlpha),e.forceSinglePass!==void 0&&(this.forceSinglePass=e.forceSinglePass),e.allowOverride!==void 0&&(this.allowOverride=e.allowOverride),e.visible!==void 0&&(this.visible=e.visible),e.toneMapped!==void 0&&(this.toneMapped=e.toneMapped),e.userData!==void 0&&(this.userData=e.userData),e.vertexColors!==void 0&&(this.vertexColors=typeof e.vertexColors==`number`?e.vertexColors>0:e.vertexColors),e.size!==void 0&&(this.size=e.size),e.sizeAttenuation!==void 0&&(this.sizeAttenuation=e.sizeAttenuation),e.map!==void 0&&(this.map=t[e.map]||null),e.matcap!==void 0&&(this.matcap=t[e.matcap]||null),e.alphaMap!==void 0&&(this.alphaMap=t[e.alphaMap]||null),e.bumpMap!==void 0&&(this.bumpMap=t[e.bumpMap]||null),e.bumpScale!==void 0&&(this.bumpScale=e.bumpScale),e.normalMap!==void 0&&(this.normalMap=t[e.normalMap]||null),e.normalMapType!==void 0&&(this.normalMapType=e.normalMapType),e.normalScale!==void 0){let t=e.normalScale;Array.isArray(t)===!1&&(t=[t,t]),this.normalScale=new Y().fromArray(t)}return e.displacementMap!==void 0&&(this.displacementMap=t[e.displacementMap]||null),e.displacementScale!==void 0&&(this.displacementScale=e.displacementScale),e.displacementBias!==void 0&&(this.displacementBias=e.displacementBias),e.roughnessMap!==void 0&&(this.roughnessMap=t[e.roughnessMap]||null),e.metalnessMap!==void 0&&(this.metalnessMap=t[e.metalnessMap]||null),e.emissiveMap!==void 0&&(this.emissiveMap=t[e.emissiveMap]||null),e.emissiveIntensity!==void 0&&(this.emissiveIntensity=e.emissiveIntensity),e.specularMap!==void 0&&(this.specularMap=t[e.specularMap]||null),e.specularIntensityMap!==void 0&&(this.specularIntensityMap=t[e.specularIntensityMap]||null),e.specularColorMap!==void 0&&(this.specularColorMap=t[e.specularColorMap]||null),e.envMap!==void 0&&(this.envMap=t[e.envMap]||null),e.envMapRotation!==void 0&&this.envMapRotation.fromArray(e.envMapRotation),e.envMapIntensity!==void 0&&(this.envMapIntensity=e.envMapIntensity),e.reflectivity!==void 0&&(this.reflectivity=e.reflectivity),e.refractionRatio!==void 0&&(this.refractionRatio=e.refractionRatio),e.lightMap!==void 0&&(this.lightMap=t[e.lightMap]||null),e.lightMapIntensity!==void 0&&(this.lightMapIntensity=e.lightMapIntensity),e.aoMap!==void 0&&(this.aoMap=t[e.aoMap]||null),e.aoMapIntensity!==void 0&&(this.aoMapIntensity=e.aoMapIntensity),e.gradientMap!==void 0&&(this.gradientMap=t[e.gradientMap]||null),e.clearcoatMap!==void 0&&(this.clearcoatMap=t[e.clearcoatMap]||null),e.clearcoatRoughnessMap!==void 0&&(this.clearcoatRoughnessMap=t[e.clearcoatRoughnessMap]||null),e.clearcoatNormalMap!==void 0&&(this.clearcoatNormalMap=t[e.clearcoatNormalMap]||null),e.clearcoatNormalScale!==void 0&&(this.clearcoatNormalScale=new Y().fromArray(e.clearcoatNormalScale)),e.diffuseRoughnessMap!==void 0&&(this.diffuseRoughnessMap=t[e.diffuseRoughnessMap]||null),e.iridescenceMap!==void 0&&(this.iridescenceMap=t[e.iridescenceMap]||null),e.iridescenceThicknessMap!==void 0&&(this.iridescenceThicknessMap=t[e.iridescenceThicknessMap]||null),e.transmissionMap!==void 0&&(this.transmissionMap=t[e.transmissionMap]||null),e.thicknessMap!==void 0&&(this.thicknessMap=t[e.thicknessMap]||null),e.anisotropyMap!==void 0&&(this.anisotropyMap=t[e.anisotropyMap]||null),e.sheenColorMap!==void 0&&(this.sheenColorMap=t[e.sheenColorMap]||null),e.sheenRoughnessMap!==void 0&&(this.sheenRoughnessMap=t[e.sheenRoughnessMap]||null),this}clone(){return new this.constructor().copy(this)}copy(e){this.name=e.name,this.blending=e.blending,this.side=e.side,this.vertexColors=e.vertexColors,this.opacity=e.opacity,this.transparent=e.transparent,this.blendSrc=e.blendSrc,this.blendDst=e.blendDst,this.blendEquation=e.blendEquation,this.blendSrcAlpha=e.blendSrcAlpha,this.blendDstAlpha=e.blendDstAlpha,this.blendEquationAlpha=e.blendEquationAlpha,this.blendColor.copy(e.blendColor),this.blendAlpha=e.blendAlpha,this.depthFunc=e.depthFunc,this.depthTest=e.depthTest,this.depthWrite=e.depthWrite,this.stencilWriteMask=e.stencilWriteMask,this.stencilFunc=e.stencilFunc,this.stencilRef=e.stencilRef,this.stencilFuncMask=e.stencilFuncMask,this.stencilFail=e.stencilFail,this.stencilZFail=e.stencilZFail,this.stencilZPass=e.stencilZPass,this.stencilWrite=e.stencilWrite;let t=e.clippingPlanes,n=null;if(t!==null){let e=t.length;n=Array(e);for(let r=0;r!==e;++r)n[r]=t[r].clone()}return this.clippingPlanes=n,this.clipIntersection=e.clipIntersection,this.clipShadows=e.clipShadows,this.shadowSide=e.shadowSide,this.colorWrite=e.colorWrite,this.precision=e.precision,this.polygonOffset=e.polygonOffset,this.polygonOffsetFactor=e.polygonOffsetFactor,this.polygonOffsetUnits=e.polygonOffsetUnits,this.dithering=e.dithering,this.alphaTest=e.alphaTest,this.alphaHash=e.alphaHash,this.alphaToCoverage=e.alphaToCoverage,this.premultipliedAlpha=e.premultipliedAlpha,this.forceSinglePass=e.forceSinglePass,this.allowOverride=e.allowOverride,this.visible=e.visible,this.toneMapped=e.toneMapped,this.userData=JSON.parse(JSON.stringify(e.userData)),this}dispose(){this.dispatchEvent({type:`dispose`})}set needsUpdate(e){e===!0&&this.version++}},nc=new X,rc=new X,ic=new X,ac=new X,oc=class{constructor(e=new X,t=new X(0,0,-1)){this.origin=e,this.direction=t}set(e,t){return this.origin.copy(e),this.direction.copy(t),this}copy(e){return this.origin.copy(e.origin),this.direction.copy(e.direction),this}at(e,t){return t.copy(this.origin).addScaledVector(this.direction,e)}lookAt(e){return this.direction.copy(e).sub(this.origin).normalize(),this}recast(e){return this.origin.copy(this.at(e,nc)),this}closestPointToPoint(e,t){t.subVectors(e,this.origin);let n=t.dot(this.direction);return n<0?t.copy(this.origin):t.copy(this.origin).addScaledVector(this.direction,n)}distanceToPoint(e){return Math.sqrt(this.distanceSqToPoint(e))}distanceSqToPoint(e){let t=nc.subVectors(e,this.origin).dot(this.direction);return t<0?this.origin.distanceToSquared(e):(nc.copy(this.origin).addScaledVector(this.direction,t),nc.distanceToSquared(e))}distanceSqToSegment(e,t,n,r){rc.copy(e).add(t).multiplyScalar(.5),ic.copy(t).sub(e).normalize(),ac.copy(this.origin).sub(rc);let i=e.distanceTo(t)*.5,a=-this.direction.dot(ic),o=ac.dot(this.direction),s=-ac.dot(ic),c=ac.lengthSq(),l=Math.abs(1-a*a),u,d,f,p;if(l>0){if(u=a*s-o,d=a*o-s,p=i*l,u>=0){if(d>=-p){if(d<=p){let e=1/l;u*=e,d*=e,f=u*(u+a*d+2*o)+d*(a*u+d+2*s)+c}else d=i,u=Math.max(0,-(a*d+o)),f=-u*u+d*(d+2*s)+c}else d=-i,u=Math.max(0,-(a*d+o)),f=-u*u+d*(d+2*s)+c}else d<=-p?(u=Math.max(0,-(-a*i+o)),d=u>0?-i:Math.min(Math.max(-i,-s),i),f=-u*u+d*(d+2*s)+c):d<=p?(u=0,d=Math.min(Math.max(-i,-s),i),f=d*(d+2*s)+c):(u=Math.max(0,-(a*i+o)),d=u>0?i:Math.min(Math.max(-i,-s),i),f=-u*u+d*(d+2*s)+c)}else d=a>0?-i:i,u=Math.max(0,-(a*d+o)),f=-u*u+d*(d+2*s)+c;return n&&n.copy(this.origin).addScaledVector(this.direction,u),r&&r.copy(rc).addScaledVector(ic,d),f}intersectSphere(e,t){if(e.radius<0)return null;nc.subVectors(e.center,this.origin);let n=nc.dot(this.direction),r=nc.dot(nc)-n*n,i=e.radius*e.radius;if(r>i)return null;let a=Math.sqrt(i-r),o=n-a,s=n+a;return s<0?null:o<0?this.at(s,t):this.at(o,t)}intersectsSphere(e){return e.radius<0?!1:this.distanceSqToPoint(e.center)<=e.radius*e.radius}distanceToPlane(e){let t=e.normal.dot(this.direction);if(t===0)return e.distanceToPoint(this.origin)===0?0:null;let n=-(this.origin.dot(e.normal)+e.constant)/t;return n>=0?n:null}intersectPlane(e,t){let n=this.distanceToPlane(e);return n===null?null:this.at(n,t)}intersectsPlane(e){let t=e.distanceToPoint(this.origin);return t===0||e.normal.dot(this.direction)*t<0}intersectBox(e,t){let n,r,i,a,o,s,c=1/this.direction.x,l=1/this.direction.y,u=1/this.direction.z,d=this.origin;return c>=0?(n=(e.min.x-d.x)*c,r=(e.max.x-d.x)*c):(n=(e.max.x-d.x)*c,r=(e.min.x-d.x)*c),l>=0?(i=(e.min.y-d.y)*l,a=(e.max.y-d.y)*l):(i=(e.max.y-d.y)*l,a=(e.min.y-d.y)*l),n>a||i>r||((i>n||isNaN(n))&&(n=i),(a<r||isNaN(r))&&(r=a),u>=0?(o=(e.min.z-d.z)*u,s=(e.max.z-d.z)*u):(o=(e.max.z-d.z)*u,s=(e.min.z-d.z)*u),n>s||o>r)||((o>n||n!==n)&&(n=o),(s<r||r!==r)&&(r=s),r<0)?null:this.at(n>=0?n:r,t)}intersectsBox(e){return this.intersectBox(e,nc)!==null}intersectTriangle(e,t,n,r,i){let a=this.origin,o=this.direction,s=o.x,c=o.y,l=o.z,u=e.x-a.x,d=e.y-a.y,f=e.z-a.z,p=t.x-a.x,m=t.y-a.y,h=t.z-a.z,g=n.x-a.x,_=n.y-a.y,v=n.z-a.z,y=Math.abs(s),b=Math.abs(c),x=Math.abs(l),S,C,w,T,E,D,O,k,A,j,ee,M;if(y>=b&&y>=x?(w=s,D=u,A=p,M=g,s>=0?(S=c,C=l,T=d,E=f,O=m,k=h,j=_,ee=v):(S=l,C=c,T=f,E=d,O=h,k=m,j=v,ee=_)):b>=x?(w=c,D=d,A=m,M=_,c>=0?(S=l,C=s,T=f,E=u,O=h,k=p,j=v,ee=g):(S=s,C=l,T=u,E=f,O=p,k=h,j=g,ee=v)):(w=l,D=f,A=h,M=v,l>=0?(S=s,C=c,T=u,E=d,O=p,k=m,j=g,ee=_):(S=c,C=s,T=d,E=u,O=m,k=p,j=_,ee=g)),w===0)return null;let N=S/w,te=C/w,ne=1/w,re=T-N*D,ie=E-te*D,ae=O-N*A,oe=k-te*A,se=j-N*M,ce=ee-te*M,le=se*oe-ce*ae,ue=re*ce-ie*se,de=ae*ie-oe*re;if(r){if(le<0||ue<0||de<0)return null}else if((le<0||ue<0||de<0)&&(le>0||ue>0||de>0))return null;let fe=le+ue+de;if(fe===0)return null;let pe=ne*(le*D+ue*A+de*M);return(fe>0?pe<0:pe>0)?null:this.at(pe/fe,i)}applyMatrix4(e){return this.origin.applyMatrix4(e),this.direction.transformDirection(e),this}equals(e){return e.origin.equals(this.origin)&&e.direction.equals(this.direction)}clone(){return new this.constructor().copy(this)}},sc=class extends tc{constructor(e){super(),this.isMeshBasicMaterial=!0,this.type=`MeshBasicMaterial`,this.color=new $o(16777215),this.map=null,this.lightMap=null,this.lightMapIntensity=1,this.aoMap=null,this.aoMapIntensity=1,this.specularMap=null,this.alphaMap=null,this.envMap=null,this.envMapRotation=new Oo,this.combine=0,this.reflectivity=1,this.refractionRatio=.98,this.wireframe=!1,this.wireframeLinewidth=1,this.wireframeLinecap=`round`,this.wireframeLinejoin=`round`,this.fog=!0,this.setValues(e)}copy(e){return super.copy(e),this.color.copy(e.color),this.map=e.map,this.lightMap=e.lightMap,this.lightMapIntensity=e.lightMapIntensity,this.aoMap=e.aoMap,this.aoMapIntensity=e.aoMapIntensity,this.specularMap=e.specularMap,this.alphaMap=e.alphaMap,this.envMap=e.envMap,this.envMapRotation.copy(e.envMapRotation),this.combine=e.combine,this.reflectivity=e.reflectivity,this.refractionRatio=e.refractionRatio,this.wireframe=e.wireframe,this.wireframeLinewidth=e.wireframeLinewidth,this.wireframeLinecap=e.wireframeLinecap,this.wireframeLinejoin=e.wireframeLinejoin,this.fog=e.fog,this}},cc=new vo,lc=new oc,uc=new Vs,dc=new X,fc=new X,pc=new X,mc=new X,hc=new X,gc=new X,_c=new X,vc=new X,yc=class extends Go{constructor(e=new Ys,t=new sc){super(),this.isMesh=!0,this.type=`Mesh`,this.geometry=e,this.material=t,this.morphTargetDictionary=void 0,this.morphTargetInfluences=void 0,this.count=1,this.updateMorphTargets()}copy(e,t){return super.copy(e,t),this.morphTargetInfluences=e.morphTargetInfluences===void 0?void 0:e.morphTargetInfluences.slice(),this.morphTargetDictionary=e.morphTargetDictionary===void 0?void 0:Object.assign({},e.morphTargetDictionary),this.material=Array.isArray(e.material)?e.material.slice():e.material,this.geometry=e.geometry,this}updateMorphTargets(){let e=this.geometry.morphAttributes,t=Object.keys(e);if(t.length>0){let n=e[t[0]];if(n!==void 0){this.morphTargetInfluences=[],this.morphTargetDictionary={};for(let e=0,t=n.length;e<t;e++){let t=n[e].name||String(e);this.morphTargetInfluences.push(0),this.morphTargetDictionary[t]=e}}}}getVertexPosition(e,t){let n=this.geometry,r=n.attributes.position,i=n.morphAttributes.position,a=n.morphTargetsRelative;t.fromBufferAttribute(r,e);let o=this.morphTargetInfluences;if(i&&o){gc.set(0,0,0);for(let n=0,r=i.length;n<r;n++){let r=o[n],s=i[n];r!==0&&(hc.fromBufferAttribute(s,e),a?gc.addScaledVector(hc,r):gc.addScaledVector(hc.sub(t),r))}t.add(gc)}return t}intersectsFrustum(e){return e.intersectsObject(this)}raycast(e,t){let n=this.geometry,r=this.material,i=this.matrixWorld;r!==void 0&&(n.boundingSphere===null&&n.computeBoundingSphere(),uc.copy(n.boundingSphere),uc.applyMatrix4(i),lc.copy(e.ray).recast(e.near),uc.containsPoint(lc.origin)===!1&&(lc.intersectSphere(uc,dc)===null||lc.origin.distanceToSquared(dc)>(e.far-e.near)**2)||(cc.copy(i).invert(),lc.copy(e.ray).applyMatrix4(cc),(n.boundingBox===null||lc.intersectsBox(n.boundingBox)!==!1)&&this._computeIntersections(e,t,lc)))}_computeIntersections(e,t,n){let r,i=this.geometry,a=this.material,o=i.index,s=i.attributes.position,c=i.attributes.uv,l=i.attributes.uv1,u=i.attributes.normal,d=i.groups,f=i.drawRange;if(o!==null){if(Array.isArray(a))for(let i=0,s=d.length;i<s;i++){let s=d[i],p=a[s.materialIndex],m=Math.max(s.start,f.start),h=Math.min(o.count,Math.min(s.start+s.count,f.start+f.count));for(let i=m,a=h;i<a;i+=3){let a=o.getX(i),d=o.getX(i+1),f=o.getX(i+2);r=xc(this,p,e,n,c,l,u,a,d,f),r&&(r.faceIndex=Math.floor(i/3),r.face.materialIndex=s.materialIndex,t.push(r))}}else{let i=Math.max(0,f.start),s=Math.min(o.count,f.start+f.count);for(let d=i,f=s;d<f;d+=3){let i=o.getX(d),s=o.getX(d+1),f=o.getX(d+2);r=xc(this,a,e,n,c,l,u,i,s,f),r&&(r.faceIndex=Math.floor(d/3),t.push(r))}}}else if(s!==void 0){if(Array.isArray(a))for(let i=0,o=d.length;i<o;i++){let o=d[i],p=a[o.materialIndex],m=Math.max(o.start,f.start),h=Math.min(s.count,Math.min(o.start+o.count,f.start+f.count));for(let i=m,a=h;i<a;i+=3){let a=i,s=i+1,d=i+2;r=xc(this,p,e,n,c,l,u,a,s,d),r&&(r.faceIndex=Math.floor(i/3),r.face.materialIndex=o.materialIndex,t.push(r))}}else{let i=Math.max(0,f.start),o=Math.min(s.count,f.start+f.count);for(let s=i,d=o;s<d;s+=3){let i=s,o=s+1,d=s+2;r=xc(this,a,e,n,c,l,u,i,o,d),r&&(r.faceIndex=Math.floor(s/3),t.push(r))}}}}};function bc(e,t,n,r,i,a,o,s){let c;if(c=t.side===1?r.intersectTriangle(o,a,i,!0,s):r.intersectTriangle(i,a,o,t.side===0,s),c===null)return null;vc.copy(s),vc.applyMatrix4(e.matrixWorld);let l=n.ray.origin.distanceTo(vc);return l<n.near||l>n.far?null:{distance:l,point:vc.clone(),object:e}}function xc(e,t,n,r,i,a,o,s,c,l){e.getVertexPosition(s,fc),e.getVertexPosition(c,pc),e.getVertexPosition(l,mc);let u=bc(e,t,n,r,fc,pc,mc,_c);if(u){let e=new X;hs.getBarycoord(_c,fc,pc,mc,e),i&&(u.uv=hs.getInterpolatedAttribute(i,s,c,l,e,new Y)),a&&(u.uv1=hs.getInterpolatedAttribute(a,s,c,l,e,new Y)),o&&(u.normal=hs.getInterpolatedAttribute(o,s,c,l,e,new X),u.normal.dot(r.direction)>0&&u.normal.multiplyScalar(-1));let t={a:s,b:c,c:l,normal:new X,materialIndex:0};hs.getNormal(fc,pc,mc,t.normal),u.face=t,u.barycoord=e}return u}var Sc=class extends fo{constructor(e=null,t=1,n=1,r,i,a,o,s,c=Rr,l=Rr,u,d){super(null,a,o,s,c,l,r,i,u,d),this.isDataTexture=!0,this.image={data:e,width:t,height:n},this.generateMipmaps=!1,this.flipY=!1,this.unpackAlignment=1}},Cc=new Vs,wc=new Y(.5,.5),Tc=new X,Ec=class{constructor(e=new $s,t=new $s,n=new $s,r=new $s,i=new $s,a=new $s){this.planes=[e,t,n,r,i,a]}set(e,t,n,r,i,a){let o=this.planes;return o[0].copy(e),o[1].copy(t),o[2].copy(n),o[3].copy(r),o[4].copy(i),o[5].copy(a),this}copy(e){let t=this.planes;for(let n=0;n<6;n++)t[n].copy(e.planes[n]);return this}setFromProjectionMatrix(e,t=la,n=!1){let r=this.planes,i=e.elements,a=i[0],o=i[1],s=i[2],c=i[3],l=i[4],u=i[5],d=i[6],f=i[7],p=i[8],m=i[9],h=i[10],g=i[11],_=i[12],v=i[13],y=i[14],b=i[15];if(r[0].setComponents(c-a,f-l,g-p,b-_).normalize(),r[1].setComponents(c+a,f+l,g+p,b+_).normalize(),r[2].setComponents(c+o,f+u,g+m,b+v).normalize(),r[3].setComponents(c-o,f-u,g-m,b-v).normalize(),n)r[4].setComponents(s,d,h,y).normalize(),r[5].setComponents(c-s,f-d,g-h,b-y).normalize();else if(r[4].setComponents(c-s,f-d,g-h,b-y).normalize(),t===2e3)r[5].setComponents(c+s,f+d,g+h,b+y).normalize();else if(t===2001)r[5].setComponents(s,d,h,y).normalize();else throw Error(`THREE.Frustum.setFromProjectionMatrix(): Invalid coordinate system: `+t);return this}intersectsObject(e){if(e.boundingSphere!==void 0)e.boundingSphere===null&&e.computeBoundingSphere(),Cc.copy(e.boundingSphere).applyMatrix4(e.matrixWorld);else{let t=e.geometry;t.boundingSphere===null&&t.computeBoundingSphere(),Cc.copy(t.boundingSphere).applyMatrix4(e.matrixWorld)}return this.intersectsSphere(Cc)}intersectsSprite(e){return Cc.center.set(0,0,0),Cc.radius=.7071067811865476+wc.distanceTo(e.center),Cc.applyMatrix4(e.matrixWorld),this.intersectsSphere(Cc)}intersectsSphere(e){let t=this.planes,n=e.center,r=-e.radius;for(let e=0;e<6;e++)if(t[e].distanceToPoint(n)<r)return!1;return!0}intersectsBox(e){let t=this.planes;for(let n=0;n<6;n++){let r=t[n];if(Tc.x=r.normal.x>0?e.max.x:e.min.x,Tc.y=r.normal.y>0?e.max.y:e.min.y,Tc.z=r.normal.z>0?e.max.z:e.min.z,r.distanceToPoint(Tc)<0)return!1}return!0}containsPoint(e){let t=this.planes;for(let n=0;n<6;n++)if(t[n].distanceToPoint(e)<0)return!1;return!0}clone(){return new this.constructor().copy(this)}},Dc=new vo,Oc=class e{constructor(){this.coordinateSystem=la,this._frustums=[],this._count=0}setFromArrayCamera(e){let t=e.cameras,n=this._frustums;for(let e=0;e<t.length;e++){let r=t[e];Dc.multiplyMatrices(r.projectionMatrix,r.matrixWorldInverse),n[e]===void 0&&(n[e]=new Ec),n[e].setFromProjectionMatrix(Dc,r.coordinateSystem,r.reversedDepth)}return this._count=t.length,this}getFrustum(e){return this._frustums[e]}intersectsObject(e){let t=this._frustums;for(let n=0;n<this._count;n++)if(t[n].intersectsObject(e))return!0;return!1}intersectsSprite(e){let t=this._frustums;for(let n=0;n<this._count;n++)if(t[n].intersectsSprite(e))return!0;return!1}intersectsSphere(e){let t=this._frustums;for(let n=0;n<this._count;n++)if(t[n].intersectsSphere(e))return!0;return!1}intersectsBox(e){let t=this._frustums;for(let n=0;n<this._count;n++)if(t[n].intersectsBox(e))return!0;return!1}containsPoint(e){let t=this._frustums;for(let n=0;n<this._count;n++)if(t[n].containsPoint(e))return!0;return!1}copy(e){this.coordinateSystem=e.coordinateSystem;let t=this._frustums,n=e._frustums;for(let r=0;r<e._count;r++)t[r]===void 0&&(t[r]=new Ec),t[r].copy(n[r]);return this._count=e._count,this}clone(){return new e().copy(this)}},kc=class extends tc{constructor(e){super(),this.isLineBasicMaterial=!0,this.type=`LineBasicMaterial`,this.color=new $o(16777215),this.map=null,this.linewidth=1,this.linecap=`round`,this.linejoin=`round`,this.fog=!0,this.setValues(e)}copy(e){return super.copy(e),this.color.copy(e.color),this.map=e.map,this.linewidth=e.linewidth,this.linecap=e.linecap,this.linejoin=e.linejoin,this.fog=e.fog,this}},Ac=new X,jc=new X,Mc=new vo,Nc=new oc,Pc=new Vs,Fc=new X,Ic=new X,Lc=class extends Go{constructor(e=new Ys,t=new kc){super(),this.isLine=!0,this.type=`Line`,this.geometry=e,this.material=t,this.morphTargetDictionary=void 0,this.morphTargetInfluences=void 0,this.updateMorphTargets()}copy(e,t){return super.copy(e,t),this.morphTargetInfluences=e.morphTargetInfluences===void 0?void 0:e.morphTargetInfluences.slice(),this.morphTargetDictionary=e.morphTargetDictionary===void 0?void 0:Object.assign({},e.morphTargetDictionary),this.material=Array.isArray(e.material)?e.material.slice():e.material,this.geometry=e.geometry,this}computeLineDistances(){let e=this.geometry;if(e.index===null){let t=e.attributes.position,n=[0];for(let e=1,r=t.count;e<r;e++)Ac.fromBufferAttribute(t,e-1),jc.fromBufferAttribute(t,e),n[e]=n[e-1],n[e]+=Ac.distanceTo(jc);e.setAttribute(`lineDistance`,new Ls(n,1))}else K(`Line.computeLineDistances(): Computation only possible with non-indexed BufferGeometry.`);return this}intersectsFrustum(e){return e.intersectsObject(this)}raycast(e,t){let n=this.geometry,r=this.matrixWorld,i=e.params.Line.threshold,a=n.drawRange;if(n.boundingSphere===null&&n.computeBoundingSphere(),Pc.copy(n.boundingSphere),Pc.applyMatrix4(r),Pc.radius+=i,e.ray.intersectsSphere(Pc)===!1)return;Mc.copy(r).invert(),Nc.copy(e.ray).applyMatrix4(Mc);let o=i/((this.scale.x+this.scale.y+this.scale.z)/3),s=o*o,c=this.isLineSegments?2:1,l=n.index,u=n.attributes.position;if(l!==null){let n=Math.max(0,a.start),r=Math.min(l.count,a.start+a.count);for(let i=n,a=r-1;i<a;i+=c){let n=l.getX(i),r=l.getX(i+1),a=Rc(this,e,Nc,s,n,r,i);a&&t.push(a)}if(this.isLineLoop){let i=l.getX(r-1),a=l.getX(n),o=Rc(this,e,Nc,s,i,a,r-1);o&&t.push(o)}}else{let n=Math.max(0,a.start),r=Math.min(u.count,a.start+a.count);for(let i=n,a=r-1;i<a;i+=c){let n=Rc(this,e,Nc,s,i,i+1,i);n&&t.push(n)}if(this.isLineLoop){let i=Rc(this,e,Nc,s,r-1,n,r-1);i&&t.push(i)}}}updateMorphTargets(){let e=this.geometry.morphAttributes,t=Object.keys(e);if(t.length>0){let n=e[t[0]];if(n!==void 0){this.morphTargetInfluences=[],this.morphTargetDictionary={};for(let e=0,t=n.length;e<t;e++){let t=n[e].name||String(e);this.morphTargetInfluences.push(0),this.morphTargetDictionary[t]=e}}}}};function Rc(e,t,n,r,i,a,o){let s=e.geometry.attributes.position;if(Ac.fromBufferAttribute(s,i),jc.fromBufferAttribute(s,a),n.distanceSqToSegment(Ac,jc,Fc,Ic)>r)return;Fc.applyMatrix4(e.matrixWorld);let c=t.ray.origin.distanceTo(Fc);if(!(c<t.near||c>t.far))return{distance:c,point:Ic.clone().applyMatrix4(e.matrixWorld),index:o,face:null,faceIndex:null,barycoord:null,object:e}}var zc=class extends Lc{constructor(e,t){super(e,t),this.isLineLoop=!0,this.type=`LineLoop`}},Bc=class extends fo{constructor(e=[],t=301,n,r,i,a,o,s,c,l){super(e,t,n,r,i,a,o,s,c,l),this.isCubeTexture=!0,this.flipY=!1}get images(){return this.image}set images(e){this.image=e}},Vc=class extends fo{constructor(e,t,n=Yr,r,i,a,o=Rr,s=Rr,c,l=oi,u=1){if(l!==1026&&l!==1027)throw Error(`THREE.DepthTexture: format must be either THREE.DepthFormat or THREE.DepthStencilFormat`);super({width:e,height:t,depth:u},r,i,a,o,s,l,n,c),this.isDepthTexture=!0,this.flipY=!1,this.generateMipmaps=!1,this.compareFunction=null}copy(e){return super.copy(e),this.source=new so(Object.assign({},e.image)),this.compareFunction=e.compareFunction,this}toJSON(e){let t=super.toJSON(e);return t.compareFunction=this.compareFunction,t}},Hc=class extends Vc{constructor(e,t=Yr,n=301,r,i,a=Rr,o=Rr,s,c=oi){let l={width:e,height:e,depth:1},u=[l,l,l,l,l,l];super(e,e,t,n,r,i,a,o,s,c),this.image=u,this.isCubeDepthTexture=!0,this.isCubeTexture=!0}get images(){return this.image}set images(e){this.image=e}},Uc=class extends fo{constructor(e=null){super(),this.sourceTexture=e,this.isExternalTexture=!0}copy(e){return super.copy(e),this.sourceTexture=e.sourceTexture,this}},Wc=class e extends Ys{constructor(e=1,t=1,n=1,r=1,i=1,a=1){super(),this.type=`BoxGeometry`,this.parameters={width:e,height:t,depth:n,widthSegments:r,heightSegments:i,depthSegments:a};let o=this;r=Math.floor(r),i=Math.floor(i),a=Math.floor(a);let s=[],c=[],l=[],u=[],d=0,f=0;p(`z`,`y`,`x`,-1,-1,n,t,e,a,i,0),p(`z`,`y`,`x`,1,-1,n,t,-e,a,i,1),p(`x`,`z`,`y`,1,1,e,n,t,r,a,2),p(`x`,`z`,`y`,1,-1,e,n,-t,r,a,3),p(`x`,`y`,`z`,1,-1,e,t,n,r,i,4),p(`x`,`y`,`z`,-1,-1,e,t,-n,r,i,5),this.setIndex(s),this.setAttribute(`position`,new Ls(c,3)),this.setAttribute(`normal`,new Ls(l,3)),this.setAttribute(`uv`,new Ls(u,2));function p(e,t,n,r,i,a,p,m,h,g,_){let v=a/h,y=p/g,b=a/2,x=p/2,S=m/2,C=h+1,w=g+1,T=0,E=0,D=new X;for(let a=0;a<w;a++){let o=a*y-x;for(let s=0;s<C;s++)D[e]=(s*v-b)*r,D[t]=o*i,D[n]=S,c.push(D.x,D.y,D.z),D[e]=0,D[t]=0,D[n]=m>0?1:-1,l.push(D.x,D.y,D.z),u.push(s/h),u.push(1-a/g),T+=1}for(let e=0;e<g;e++)for(let t=0;t<h;t++){let n=d+t+C*e,r=d+t+C*(e+1),i=d+(t+1)+C*(e+1),a=d+(t+1)+C*e;s.push(n,r,a),s.push(r,i,a),E+=6}o.addGroup(f,E,_),f+=E,d+=T}}copy(e){return super.copy(e),this.parameters=Object.assign({},e.parameters),this}static fromJSON(t){return new e(t.width,t.height,t.depth,t.widthSegments,t.heightSegments,t.depthSegments)}},Gc=class e extends Ys{constructor(e=1,t=1,n=1,r=1){super(),this.type=`PlaneGeometry`,this.parameters={width:e,height:t,widthSegments:n,heightSegments:r};let i=e/2,a=t/2,o=Math.floor(n),s=Math.floor(r),c=o+1,l=s+1,u=e/o,d=t/s,f=[],p=[],m=[],h=[];for(let e=0;e<l;e++){let t=e*d-a;for(let n=0;n<c;n++){let r=n*u-i;p.push(r,-t,0),m.push(0,0,1),h.push(n/o),h.push(1-e/s)}}for(let e=0;e<s;e++)for(let t=0;t<o;t++){let n=t+c*e,r=t+c*(e+1),i=t+1+c*(e+1),a=t+1+c*e;f.push(n,r,a),f.push(r,i,a)}this.setIndex(f),this.setAttribute(`position`,new Ls(p,3)),this.setAttribute(`normal`,new Ls(m,3)),this.setAttribute(`uv`,new Ls(h,2))}copy(e){return super.copy(e),this.parameters=Object.assign({},e.parameters),this}static fromJSON(t){return new e(t.width,t.height,t.widthSegments,t.heightSegments)}};function Kc(e){let t={};for(let n in e){t[n]={};for(let r in e[n]){let i=e[n][r];if(Jc(i))i.isRenderTargetTexture?(K(`UniformsUtils: Textures of render targets cannot be cloned via cloneUniforms() or mergeUniforms().`),t[n][r]=null):t[n][r]=i.clone();else if(Array.isArray(i)){if(Jc(i[0])){let e=[];for(let t=0,n=i.length;t<n;t++)e[t]=i[t].clone();t[n][r]=e}else t[n][r]=i.slice()}else t[n][r]=i}}return t}function qc(e){let t={};for(let n=0;n<e.length;n++){let r=Kc(e[n]);for(let e in r)t[e]=r[e]}return t}function Jc(e){return e&&(e.isColor||e.isMatrix3||e.isMatrix4||e.isVector2||e.isVector3||e.isVector4||e.isTexture||e.isQuaternion)}function Yc(e){let t=[];for(let n=0;n<e.length;n++)t.push(e[n].clone());return t}function Xc(e){let t=e.getRenderTarget();return t===null?e.outputColorSpace:t.isXRRenderTarget===!0?t.texture.colorSpace:to.workingColorSpace}var Zc={clone:Kc,merge:qc},Qc=`void main() {
	gl_Position = projectionMatrix * modelViewMatrix * vec4( position, 1.0 );
}`,$c=`void main() {
	gl_FragColor = vec4( 1.0, 0.0, 0.0, 1.0 );
}`,el=class extends tc{constructor(e){super(),this.isShaderMaterial=!0,this.type=`ShaderMaterial`,this.defines={},this.uniforms={},this.uniformsGroups=[],this.vertexShader=Qc,this.fragmentShader=$c,this.linewidth=1,this.wireframe=!1,this.wireframeLinewidth=1,this.fog=!1,this.lights=!1,this.clipping=!1,this.forceSinglePass=!0,this.extensions={clipCullDistance:!1,multiDraw:!1},this.defaultAttributeValues={color:[1,1,1],uv:[0,0],uv1:[0,0]},this.index0AttributeName=void 0,this.uniformsNeedUpdate=!1,this.glslVersion=null,e!==void 0&&this.setValues(e)}copy(e){return super.copy(e),this.fragmentShader=e.fragmentShader,this.vertexShader=e.vertexShader,this.uniforms=Kc(e.uniforms),this.uniformsGroups=Yc(e.uniformsGroups),this.defines=Object.assign({},e.defines),this.wireframe=e.wireframe,this.wireframeLinewidth=e.wireframeLinewidth,this.fog=e.fog,this.lights=e.lights,this.clipping=e.clipping,this.extensions=Object.assign({},e.extensions),this.glslVersion=e.glslVersion,this.defaultAttributeValues=Object.assign({},e.defaultAttributeValues),this.index0AttributeName=e.index0AttributeName,this.uniformsNeedUpdate=e.uniformsNeedUpdate,this}toJSON(e){let t=super.toJSON(e);t.glslVersion=this.glslVersion,t.uniforms={};for(let n in this.uniforms){let r=this.uniforms[n].value;r&&r.isTexture?t.uniforms[n]={type:`t`,value:r.toJSON(e).uuid}:r&&r.isColor?t.uniforms[n]={type:`c`,value:r.getHex()}:r&&r.isVector2?t.uniforms[n]={type:`v2`,value:r.toArray()}:r&&r.isVector3?t.uniforms[n]={type:`v3`,value:r.toArray()}:r&&r.isVector4?t.uniforms[n]={type:`v4`,value:r.toArray()}:r&&r.isMatrix3?t.uniforms[n]={type:`m3`,value:r.toArray()}:r&&r.isMatrix4?t.uniforms[n]={type:`m4`,value:r.toArray()}:t.uniforms[n]={value:r}}Object.keys(this.defines).length>0&&(t.defines=this.defines),t.vertexShader=this.vertexShader,t.fragmentShader=this.fragmentShader,t.lights=this.lights,t.clipping=this.clipping;let n={};for(let e in this.extensions)this.extensions[e]===!0&&(n[e]=!0);return Object.keys(n).length>0&&(t.extensions=n),t}fromJSON(e,t){if(super.fromJSON(e,t),e.uniforms!==void 0)for(let n in e.uniforms){let r=e.uniforms[n];switch(this.uniforms[n]={},r.type){case`t`:this.uniforms[n].value=t[r.value]||null;break;case`c`:this.uniforms[n].value=new $o().setHex(r.value);break;case`v2`:this.uniforms[n].value=new Y().fromArray(r.value);break;case`v3`:this.uniforms[n].value=new X().fromArray(r.value);break;case`v4`:this.uniforms[n].value=new po().fromArray(r.value);break;case`m3`:this.uniforms[n].value=new Z().fromArray(r.value);break;case`m4`:this.uniforms[n].value=new vo().fromArray(r.value);break;default:this.uniforms[n].value=r.value}}if(e.defines!==void 0&&(this.defines=e.defines),e.vertexShader!==void 0&&(this.vertexShader=e.vertexShader),e.fragmentShader!==void 0&&(this.fragmentShader=e.fragmentShader),e.glslVersion!==void 0&&(this.glslVersion=e.glslVersion),e.extensions!==void 0)for(let t in e.extensions)this.extensions[t]=e.extensions[t];return e.lights!==void 0&&(this.lights=e.lights),e.clipping!==void 0&&(this.clipping=e.clipping),this}},tl=class extends el{constructor(e){super(e),this.isRawShaderMaterial=!0,this.type=`RawShaderMaterial`}},nl=class extends tc{constructor(e){super(),this.isMeshLambertMaterial=!0,this.type=`MeshLambertMaterial`,this.color=new $o(16777215),this.map=null,this.lightMap=null,this.lightMapIntensity=1,this.aoMap=null,this.aoMapIntensity=1,this.emissive=new $o(0),this.emissiveIntensity=1,this.emissiveMap=null,this.bumpMap=null,this.bumpScale=1,this.normalMap=null,this.normalMapType=0,this.normalScale=new Y(1,1),this.displacementMap=null,this.displacementScale=1,this.displacementBias=0,this.specularMap=null,this.alphaMap=null,this.envMap=null,this.envMapRotation=new Oo,this.combine=0,this.reflectivity=1,this.envMapIntensity=1,this.refractionRatio=.98,this.wireframe=!1,this.wireframeLinewidth=1,this.wireframeLinecap=`round`,this.wireframeLinejoin=`round`,this.flatShading=!1,this.fog=!0,this.setValues(e)}copy(e){return super.copy(e),this.color.copy(e.color),this.map=e.map,this.lightMap=e.lightMap,this.lightMapIntensity=e.lightMapIntensity,this.aoMap=e.aoMap,this.aoMapIntensity=e.aoMapIntensity,this.emissive.copy(e.emissive),this.emissiveMap=e.emissiveMap,this.emissiveIntensity=e.emissiveIntensity,this.bumpMap=e.bumpMap,this.bumpScale=e.bumpScale,this.normalMap=e.normalMap,this.normalMapType=e.normalMapType,this.normalScale.copy(e.normalScale),this.displacementMap=e.displacementMap,this.displacementScale=e.displacementScale,this.displacementBias=e.displacementBias,this.specularMap=e.specularMap,this.alphaMap=e.alphaMap,this.envMap=e.envMap,this.envMapRotation.copy(e.envMapRotation),this.combine=e.combine,this.reflectivity=e.reflectivity,this.envMapIntensity=e.envMapIntensity,this.refractionRatio=e.refractionRatio,this.wireframe=e.wireframe,this.wireframeLinewidth=e.wireframeLinewidth,this.wireframeLinecap=e.wireframeLinecap,this.wireframeLinejoin=e.wireframeLinejoin,this.flatShading=e.flatShading,this.fog=e.fog,this}},rl=class extends tc{constructor(e){super(),this.isMeshDepthMaterial=!0,this.type=`MeshDepthMaterial`,this.depthPacking=na,this.map=null,this.alphaMap=null,this.displacementMap=null,this.displacementScale=1,this.displacementBias=0,this.wireframe=!1,this.wireframeLinewidth=1,this.setValues(e)}copy(e){return super.copy(e),this.depthPacking=e.depthPacking,this.map=e.map,this.alphaMap=e.alphaMap,this.displacementMap=e.displacementMap,this.displacementScale=e.displacementScale,this.displacementBias=e.displacementBias,this.wireframe=e.wireframe,this.wireframeLinewidth=e.wireframeLinewidth,this}},il=class extends tc{constructor(e){super(),this.isMeshDistanceMaterial=!0,this.type=`MeshDistanceMaterial`,this.map=null,this.alphaMap=null,this.displacementMap=null,this.displacementScale=1,this.displacementBias=0,this.setValues(e)}copy(e){return super.copy(e),this.map=e.map,this.alphaMap=e.alphaMap,this.displacementMap=e.displacementMap,this.displacementScale=e.displacementScale,this.displacementBias=e.displacementBias,this}};function al(e,t){return!e||e.constructor===t?e:typeof t.BYTES_PER_ELEMENT==`number`?new t(e):Array.prototype.slice.call(e)}function ol(e){return e!==void 0&&e.inTangents!==void 0&&e.outTangents!==void 0}var sl=class{constructor(e,t,n,r){this.parameterPositions=e,this._cachedIndex=0,this.resultBuffer=r===void 0?new t.constructor(n):r,this.sampleValues=t,this.valueSize=n,this.settings=null,this.DefaultSettings_={}}evaluate(e){let t=this.parameterPositions,n=this._cachedIndex,r=t[n],i=t[n-1];validate_interval:{seek:{let a;linear_scan:{forward_scan:if(!(e<r)){for(let a=n+2;;){if(r===void 0){if(e<i)break forward_scan;return n=t.length,this._cachedIndex=n,this.copySampleValue_(n-1)}if(n===a)break;if(i=r,r=t[++n],e<r)break seek}a=t.length;break linear_scan}if(!(e>=i)){let o=t[1];e<o&&(n=2,i=o);for(let a=n-2;;){if(i===void 0)return this._cachedIndex=0,this.copySampleValue_(0);if(n===a)break;if(r=i,i=t[--n-1],e>=i)break seek}a=n,n=0;break linear_scan}break validate_interval}for(;n<a;){let r=n+a>>>1;e<t[r]?a=r:n=r+1}if(r=t[n],i=t[n-1],i===void 0)return this._cachedIndex=0,this.copySampleValue_(0);if(r===void 0)return n=t.length,this._cachedIndex=n,this.copySampleValue_(n-1)}this._cachedIndex=n,this.intervalChanged_(n,i,r)}return this.interpolate_(n,i,e,r)}getSettings_(){return this.settings||this.DefaultSettings_}copySampleValue_(e){let t=this.resultBuffer,n=this.sampleValues,r=this.valueSize,i=e*r;for(let e=0;e!==r;++e)t[e]=n[i+e];return t}interpolate_(){throw Error(`THREE.Interpolant: Call to abstract method.`)}intervalChanged_(){}},cl=class extends sl{constructor(e,t,n,r){super(e,t,n,r),this._weightPrev=-0,this._offsetPrev=-0,this._weightNext=-0,this._offsetNext=-0,this.DefaultSettings_={endingStart:$i,endingEnd:$i}}intervalChanged_(e,t,n){let r=this.parameterPositions,i=e-2,a=e+1,o=r[i],s=r[a];if(o===void 0)switch(this.getSettings_().endingStart){case ea:i=e,o=2*t-n;break;case ta:i=r.length-2,o=t+r[i]-r[i+1];break;default:i=e,o=n}if(s===void 0)switch(this.getSettings_().endingEnd){case ea:a=e,s=2*n-t;break;case ta:a=1,s=n+r[1]-r[0];break;default:a=e-1,s=t}let c=(n-t)*.5,l=this.valueSize;this._weightPrev=c/(t-o),this._weightNext=c/(s-n),this._offsetPrev=i*l,this._offsetNext=a*l}interpolate_(e,t,n,r){let i=this.resultBuffer,a=this.sampleValues,o=this.valueSize,s=e*o,c=s-o,l=this._offsetPrev,u=this._offsetNext,d=this._weightPrev,f=this._weightNext,p=(n-t)/(r-t),m=p*p,h=m*p,g=-d*h+2*d*m-d*p,_=(1+d)*h+(-1.5-2*d)*m+(-.5+d)*p+1,v=(-1-f)*h+(1.5+f)*m+.5*p,y=f*h-f*m;for(let e=0;e!==o;++e)i[e]=g*a[l+e]+_*a[c+e]+v*a[s+e]+y*a[u+e];return i}},ll=class extends sl{constructor(e,t,n,r){super(e,t,n,r)}interpolate_(e,t,n,r){let i=this.resultBuffer,a=this.sampleValues,o=this.valueSize,s=e*o,c=s-o,l=(n-t)/(r-t),u=1-l;for(let e=0;e!==o;++e)i[e]=a[c+e]*u+a[s+e]*l;return i}},ul=class extends sl{constructor(e,t,n,r){super(e,t,n,r)}interpolate_(e){return this.copySampleValue_(e-1)}},dl=class extends sl{interpolate_(e,t,n,r){let i=this.resultBuffer,a=this.sampleValues,o=this.valueSize,s=e*o,c=s-o,l=this.inTangents,u=this.outTangents;if(!l||!u){let e=(n-t)/(r-t),l=1-e;for(let t=0;t!==o;++t)i[t]=a[c+t]*l+a[s+t]*e;return i}let d=o*2,f=e-1;for(let p=0;p!==o;++p){let o=a[c+p],m=a[s+p],h=f*d+p*2,g=u[h],_=u[h+1],v=e*d+p*2,y=l[v],b=l[v+1],x=ml(n,t,g,y,r);i[p]=fl(x,o,_,b,m)}return i}};function fl(e,t,n,r,i){let a=1-e;return a*a*a*t+3*a*a*e*n+3*a*e*e*r+e*e*e*i}function pl(e,t,n,r,i){let a=1-e;return 3*a*a*(n-t)+6*a*e*(r-n)+3*e*e*(i-r)}function ml(e,t,n,r,i){let a=(e-t)/(i-t);for(let o=0;o<8;o++){let o=fl(a,t,n,r,i)-e;if(Math.abs(o)<1e-10)break;let s=pl(a,t,n,r,i);if(Math.abs(s)<1e-10)break;a=Math.max(0,Math.min(1,a-o/s))}return a}var hl=class{constructor(e,t,n,r){if(e===void 0)throw Error(`THREE.KeyframeTrack: track name is undefined`);if(t===void 0||t.length===0)throw Error(`THREE.KeyframeTrack: no keyframes in track named `+e);this.name=e,this.times=al(t,this.TimeBufferType),this.values=al(n,this.ValueBufferType),this.setInterpolation(r||this.DefaultInterpolation)}static toJSON(e){let t=e.constructor,n;if(t.toJSON!==this.toJSON)n=t.toJSON(e);else{n={name:e.name,times:al(e.times,Array),values:al(e.values,Array)};let t=e.getInterpolation();t!==e.DefaultInterpolation&&(n.interpolation=t),ol(e.settings)&&(n.settings={inTangents:al(e.settings.inTangents,Array),outTangents:al(e.settings.outTangents,Array)})}return n.type=e.ValueTypeName,n}InterpolantFactoryMethodDiscrete(e){return new ul(this.times,this.values,this.getValueSize(),e)}InterpolantFactoryMethodLinear(e){return new ll(this.times,this.values,this.getValueSize(),e)}InterpolantFactoryMethodSmooth(e){return new cl(this.times,this.values,this.getValueSize(),e)}InterpolantFactoryMethodBezier(e){let t=new dl(this.times,this.values,this.getValueSize(),e);return this.settings&&(t.inTangents=this.settings.inTangents,t.outTangents=this.settings.outTangents),t}setInterpolation(e){let t;switch(e){case Yi:t=this.InterpolantFactoryMethodDiscrete;break;case Xi:t=this.InterpolantFactoryMethodLinear;break;case Zi:t=this.InterpolantFactoryMethodSmooth;break;case Qi:t=this.InterpolantFactoryMethodBezier}if(t===void 0){let t=`unsupported interpolation for `+this.ValueTypeName+` keyframe track named `+this.name;if(this.createInterpolant===void 0){if(e!==this.DefaultInterpolation)this.setInterpolation(this.DefaultInterpolation);else throw Error(t)}return K(`KeyframeTrack:`,t),this}return this.createInterpolant=t,this}getInterpolation(){switch(this.createInterpolant){case this.InterpolantFactoryMethodDiscrete:return Yi;case this.InterpolantFactoryMethodLinear:return Xi;case this.InterpolantFactoryMethodSmooth:return Zi;case this.InterpolantFactoryMethodBezier:return Qi}}getValueSize(){return this.values.length/this.times.length}shift(e){if(e!==0){let t=this.times;for(let n=0,r=t.length;n!==r;++n)t[n]+=e;ol(this.settings)&&(gl(this.settings.inTangents,e),gl(this.settings.outTangents,e))}return this}scale(e){if(e!==1){let t=this.times;for(let n=0,r=t.length;n!==r;++n)t[n]*=e;ol(this.settings)&&(_l(this.settings.inTangents,e),_l(this.settings.outTangents,e))}return this}trim(e,t){let n=this.times,r=n.length,i=0,a=r-1;for(;i!==r&&n[i]<e;)++i;for(;a!==-1&&n[a]>t;)--a;if(++a,i!==0||a!==r){i>=a&&(a=Math.max(a,1),i=a-1);let e=this.getValueSize();this.times=n.slice(i,a),this.values=this.values.slice(i*e,a*e)}return this}validate(){let e=!0,t=this.getValueSize();t-Math.floor(t)!==0&&(q(`KeyframeTrack: Invalid value size in track.`,this),e=!1);let n=this.times,r=this.values,i=n.length;i===0&&(q(`KeyframeTrack: Track is empty.`,this),e=!1);let a=null;for(let t=0;t!==i;t++){let r=n[t];if(typeof r==`number`&&isNaN(r)){q(`KeyframeTrack: Time is not a valid number.`,this,t,r),e=!1;break}if(a!==null&&a>r){q(`KeyframeTrack: Out of order keys.`,this,t,r,a),e=!1;break}a=r}if(r!==void 0&&da(r))for(let t=0,n=r.length;t!==n;++t){let n=r[t];if(isNaN(n)){q(`KeyframeTrack: Value is not a valid number.`,this,t,n),e=!1;break}}return e}optimize(){let e=this.times.slice(),t=this.values.slice(),n=this.getValueSize(),r=this.getInterpolation()===Zi,i=e.length-1,a=1;for(let o=1;o<i;++o){let i=!1,s=e[o];if(s!==e[o+1]&&(o!==1||s!==e[0])){if(r)i=!0;else{let e=o*n,r=e-n,a=e+n;for(let o=0;o!==n;++o){let n=t[e+o];if(n!==t[r+o]||n!==t[a+o]){i=!0;break}}}}if(i){if(o!==a){e[a]=e[o];let r=o*n,i=a*n;for(let e=0;e!==n;++e)t[i+e]=t[r+e]}++a}}if(i>0){e[a]=e[i];for(let e=i*n,r=a*n,o=0;o!==n;++o)t[r+o]=t[e+o];++a}return a===e.length?(this.times=e,this.values=t):(this.times=e.slice(0,a),this.values=t.slice(0,a*n)),this}clone(){let e=this.times.slice(),t=this.values.slice(),n=this.constructor,r=new n(this.name,e,t);return r.createInterpolant=this.createInterpolant,ol(this.settings)&&(r.settings={inTangents:this.settings.inTangents.slice(),outTangents:this.settings.outTangents.slice()}),r}};function gl(e,t){for(let n=0,r=e.length;n!==r;n+=2)e[n]+=t}function _l(e,t){for(let n=0,r=e.length;n!==r;n+=2)e[n]*=t}hl.prototype.ValueTypeName=``,hl.prototype.TimeBufferType=Float32Array,hl.prototype.ValueBufferType=Float32Array,hl.prototype.DefaultInterpolation=Xi;var vl=class extends hl{constructor(e,t,n){super(e,t,n)}};vl.prototype.ValueTypeName=`bool`,vl.prototype.ValueBufferType=Array,vl.prototype.DefaultInterpolation=Yi,vl.prototype.InterpolantFactoryMethodLinear=void 0,vl.prototype.InterpolantFactoryMethodSmooth=void 0;var yl=class extends hl{constructor(e,t,n,r){super(e,t,n,r)}};yl.prototype.ValueTypeName=`color`;var bl=class extends hl{constructor(e,t,n,r){super(e,t,n,r)}};bl.prototype.ValueTypeName=`number`;var xl=class extends sl{constructor(e,t,n,r){super(e,t,n,r)}interpolate_(e,t,n,r){let i=this.resultBuffer,a=this.sampleValues,o=this.valueSize,s=(n-t)/(r-t),c=e*o;for(let e=c+o;c!==e;c+=4)Ja.slerpFlat(i,0,a,c-o,a,c,s);return i}},Sl=class extends hl{constructor(e,t,n,r){super(e,t,n,r)}InterpolantFactoryMethodLinear(e){return new xl(this.times,this.values,this.getValueSize(),e)}};Sl.prototype.ValueTypeName=`quaternion`,Sl.prototype.InterpolantFactoryMethodSmooth=void 0;var Cl=class extends hl{constructor(e,t,n){super(e,t,n)}};Cl.prototype.ValueTypeName=`string`,Cl.prototype.ValueBufferType=Array,Cl.prototype.DefaultInterpolation=Yi,Cl.prototype.InterpolantFactoryMethodLinear=void 0,Cl.prototype.InterpolantFactoryMethodSmooth=void 0;var wl=class extends hl{constructor(e,t,n,r){super(e,t,n,r)}};wl.prototype.ValueTypeName=`vector`;var Tl=class extends Go{static registerNode(e){this.prototype._lightNode=e}constructor(e,t=1){super(),this.isLight=!0,this.type=`Light`,this.color=new $o(e),this.intensity=t}copy(e,t){return super.copy(e,t),this.color.copy(e.color),this.intensity=e.intensity,this}toJSON(e){let t=super.toJSON(e);return t.object.color=this.color.getHex(),t.object.intensity=this.intensity,t}},El=new vo,Dl=new X,Ol=new X,kl=class{constructor(e){this.camera=e,this.intensity=1,this.bias=0,this.biasNode=null,this.normalBias=0,this.radius=1,this.blurSamples=8,this.mapSize=new Y(512,512),this.mapType=Wr,this.map=null,this.mapPass=null,this.matrix=new vo,this.autoUpdate=!0,this.needsUpdate=!1,this._frustum=new Ec,this._frameExtents=new Y(1,1),this._viewportCount=1,this._viewports=[new po(0,0,1,1)]}getViewportCount(){return this._viewportCount}getCamera(){return this.camera}getFrustum(){return this._frustum}updateMatrices(e){let t=this.camera;Dl.setFromMatrixPosition(e.matrixWorld),t.position.copy(Dl),Ol.setFromMatrixPosition(e.target.matrixWorld),t.lookAt(Ol),t.updateMatrixWorld(),this._updateMatrix(t,this.matrix,this._frustum)}_updateMatrix(e,t,n,r){El.multiplyMatrices(e.projectionMatrix,e.matrixWorldInverse),n.setFromProjectionMatrix(El,e.coordinateSystem,e.reversedDepth);let i=this._frameExtents,a=r?r.z/i.x:1,o=r?r.w/i.y:1,s=r?r.x/i.x:0,c=r?r.y/i.y:0;e.coordinateSystem===2001||e.reversedDepth?t.set(.5*a,0,0,.5*a+s,0,.5*o,0,.5*o+c,0,0,1,0,0,0,0,1):t.set(.5*a,0,0,.5*a+s,0,.5*o,0,.5*o+c,0,0,.5,.5,0,0,0,1),t.multiply(El)}getViewport(e){return this._viewports[e]}getFrameExtents(){return this._frameExtents}dispose(){this.map&&this.map.dispose(),this.mapPass&&this.mapPass.dispose()}copy(e){return this.camera=e.camera.clone(),this.intensity=e.intensity,this.bias=e.bias,this.radius=e.radius,this.autoUpdate=e.autoUpdate,this.needsUpdate=e.needsUpdate,this.normalBias=e.normalBias,this.blurSamples=e.blurSamples,this.mapSize.copy(e.mapSize),this.mapType=e.mapType,this.biasNode=e.biasNode,this}clone(){return new this.constructor().copy(this)}toJSON(){let e={};return e.intensity=this.intensity,e.bias=this.bias,e.normalBias=this.normalBias,e.radius=this.radius,e.blurSamples=this.blurSamples,e.mapSize=this.mapSize.toArray(),e.mapType=this.mapType,e.camera=this.camera.toJSON(!1).object,delete e.camera.matrix,e}},Al=new X,jl=new Ja,Ml=new X,Nl=class extends Go{constructor(){super(),this.isCamera=!0,this.type=`Camera`,this.matrixWorldInverse=new vo,this.projectionMatrix=new vo,this.projectionMatrixInverse=new vo,this.coordinateSystem=la,this._reversedDepth=!1}get reversedDepth(){return this._reversedDepth}copy(e,t){return super.copy(e,t),this.matrixWorldInverse.copy(e.matrixWorldInverse),this.projectionMatrix.copy(e.projectionMatrix),this.projectionMatrixInverse.copy(e.projectionMatrixInverse),this.coordinateSystem=e.coordinateSystem,this}getWorldDirection(e){return super.getWorldDirection(e).negate()}updateMatrixWorld(e){super.updateMatrixWorld(e),this.matrixWorld.decompose(Al,jl,Ml),Ml.x===1&&Ml.y===1&&Ml.z===1?this.matrixWorldInverse.copy(this.matrixWorld).invert():this.matrixWorldInverse.compose(Al,jl,Ml.set(1,1,1)).invert()}updateWorldMatrix(e,t,n=!1){super.updateWorldMatrix(e,t,n),this.matrixWorld.decompose(Al,jl,Ml),Ml.x===1&&Ml.y===1&&Ml.z===1?this.matrixWorldInverse.copy(this.matrixWorld).invert():this.matrixWorldInverse.compose(Al,jl,Ml.set(1,1,1)).invert()}clone(){return new this.constructor().copy(this)}},Pl=new X,Fl=new Y,Il=new Y,Ll=class extends Nl{constructor(e=50,t=1,n=.1,r=2e3){super(),this.isPerspectiveCamera=!0,this.type=`PerspectiveCamera`,this.fov=e,this.zoom=1,this.near=n,this.far=r,this.focus=10,this.aspect=t,this.view=null,this.filmGauge=35,this.filmOffset=0,this.updateProjectionMatrix()}copy(e,t){return super.copy(e,t),this.fov=e.fov,this.zoom=e.zoom,this.near=e.near,this.far=e.far,this.focus=e.focus,this.aspect=e.aspect,this.view=e.view===null?null:Object.assign({},e.view),this.filmGauge=e.filmGauge,this.filmOffset=e.filmOffset,this}setFocalLength(e){let t=.5*this.getFilmHeight()/e;this.fov=wa*2*Math.atan(t),this.updateProjectionMatrix()}getFocalLength(){let e=Math.tan(Ca*.5*this.fov);return .5*this.getFilmHeight()/e}getEffectiveFOV(){return wa*2*Math.atan(Math.tan(Ca*.5*this.fov)/this.zoom)}getFilmWidth(){return this.filmGauge*Math.min(this.aspect,1)}getFilmHeight(){return this.filmGauge/Math.max(this.aspect,1)}getViewBounds(e,t,n){Pl.set(-1,-1,.5).applyMatrix4(this.projectionMatrixInverse),t.set(Pl.x,Pl.y).multiplyScalar(-e/Pl.z),Pl.set(1,1,.5).applyMatrix4(this.projectionMatrixInverse),n.set(Pl.x,Pl.y).multiplyScalar(-e/Pl.z)}getViewSize(e,t){return this.getViewBounds(e,Fl,Il),t.subVectors(Il,Fl)}setViewOffset(e,t,n,r,i,a){this.aspect=e/t,this.view===null&&(this.view={enabled:!0,fullWidth:1,fullHeight:1,offsetX:0,offsetY:0,width:1,height:1}),this.view.enabled=!0,this.view.fullWidth=e,this.view.fullHeight=t,this.view.offsetX=n,this.view.offsetY=r,this.view.width=i,this.view.height=a,this.updateProjectionMatrix()}clearViewOffset(){this.view!==null&&(this.view.enabled=!1),this.updateProjectionMatrix()}updateProjectionMatrix(){let e=this.near,t=e*Math.tan(Ca*.5*this.fov)/this.zoom,n=2*t,r=this.aspect*n,i=-.5*r,a=this.view;if(this.view!==null&&this.view.enabled){let e=a.fullWidth,o=a.fullHeight;i+=a.offsetX*r/e,t-=a.offsetY*n/o,r*=a.width/e,n*=a.height/o}let o=this.filmOffset;o!==0&&(i+=e*o/this.getFilmWidth()),this.projectionMatrix.makePerspective(i,i+r,t,t-n,e,this.far,this.coordinateSystem,this.reversedDepth),this.projectionMatrixInverse.copy(this.projectionMatrix).invert()}toJSON(e){let t=super.toJSON(e);return t.object.fov=this.fov,t.object.zoom=this.zoom,t.object.near=this.near,t.object.far=this.far,t.object.focus=this.focus,t.object.aspect=this.aspect,this.view!==null&&(t.object.view=Object.assign({},this.view)),t.object.filmGauge=this.filmGauge,t.object.filmOffset=this.filmOffset,t}},Rl=class extends Nl{constructor(e=-1,t=1,n=1,r=-1,i=.1,a=2e3){super(),this.isOrthographicCamera=!0,this.type=`OrthographicCamera`,this.zoom=1,this.view=null,this.left=e,this.right=t,this.top=n,this.bottom=r,this.near=i,this.far=a,this.updateProjectionMatrix()}copy(e,t){return super.copy(e,t),this.left=e.left,this.right=e.right,this.top=e.top,this.bottom=e.bottom,this.near=e.near,this.far=e.far,this.zoom=e.zoom,this.view=e.view===null?null:Object.assign({},e.view),this}setViewOffset(e,t,n,r,i,a){this.view===null&&(this.view={enabled:!0,fullWidth:1,fullHeight:1,offsetX:0,offsetY:0,width:1,height:1}),this.view.enabled=!0,this.view.fullWidth=e,this.view.fullHeight=t,this.view.offsetX=n,this.view.offsetY=r,this.view.width=i,this.view.height=a,this.updateProjectionMatrix()}clearViewOffset(){this.view!==null&&(this.view.enabled=!1),this.updateProjectionMatrix()}updateProjectionMatrix(){let e=(this.right-this.left)/(2*this.zoom),t=(this.top-this.bottom)/(2*this.zoom),n=(this.right+this.left)/2,r=(this.top+this.bottom)/2,i=n-e,a=n+e,o=r+t,s=r-t;if(this.view!==null&&this.view.enabled){let e=(this.right-this.left)/this.view.fullWidth/this.zoom,t=(this.top-this.bottom)/this.view.fullHeight/this.zoom;i+=e*this.view.offsetX,a=i+e*this.view.width,o-=t*this.view.offsetY,s=o-t*this.view.height}this.projectionMatrix.makeOrthographic(i,a,o,s,this.near,this.far,this.coordinateSystem,this.reversedDepth),this.projectionMatrixInverse.copy(this.projectionMatrix).invert()}toJSON(e){let t=super.toJSON(e);return t.object.zoom=this.zoom,t.object.left=this.left,t.object.right=this.right,t.object.top=this.top,t.object.bottom=this.bottom,t.object.near=this.near,t.object.far=this.far,this.view!==null&&(t.object.view=Object.assign({},this.view)),t}},zl=class extends kl{constructor(){super(new Rl(-5,5,5,-5,.5,500)),this.isDirectionalLightShadow=!0}},Bl=class extends Tl{constructor(e,t){super(e,t),this.isDirectionalLight=!0,this.type=`DirectionalLight`,this.position.copy(Go.DEFAULT_UP),this.updateMatrix(),this.target=new Go,this.shadow=new zl}dispose(){super.dispose(),this.shadow.dispose()}copy(e){return super.copy(e),this.target=e.target.clone(),this.shadow=e.shadow.clone(),this}toJSON(e){let t=super.toJSON(e);return t.object.shadow=this.shadow.toJSON(),t.object.target=this.target.uuid,t}},Vl=class extends Tl{constructor(e,t){super(e,t),this.isAmbientLight=!0,this.type=`AmbientLight`}},Hl=-90,Ul=1,Wl=class extends Go{constructor(e,t,n){super(),this.type=`CubeCamera`,this.renderTarget=n,this.coordinateSystem=null,this.activeMipmapLevel=0;let r=new Ll(Hl,Ul,e,t);r.layers=this.layers,this.add(r);let i=new Ll(Hl,Ul,e,t);i.layers=this.layers,this.add(i);let a=new Ll(Hl,Ul,e,t);a.layers=this.layers,this.add(a);let o=new Ll(Hl,Ul,e,t);o.layers=this.layers,this.add(o);let s=new Ll(Hl,Ul,e,t);s.layers=this.layers,this.add(s);let c=new Ll(Hl,Ul,e,t);c.layers=this.layers,this.add(c)}updateCoordinateSystem(){let e=this.coordinateSystem,t=this.children.concat(),[n,r,i,a,o,s]=t;for(let e of t)this.remove(e);if(e===2e3)n.up.set(0,1,0),n.lookAt(1,0,0),r.up.set(0,1,0),r.lookAt(-1,0,0),i.up.set(0,0,-1),i.lookAt(0,1,0),a.up.set(0,0,1),a.lookAt(0,-1,0),o.up.set(0,1,0),o.lookAt(0,0,1),s.up.set(0,1,0),s.lookAt(0,0,-1);else if(e===2001)n.up.set(0,-1,0),n.lookAt(-1,0,0),r.up.set(0,-1,0),r.lookAt(1,0,0),i.up.set(0,0,1),i.lookAt(0,1,0),a.up.set(0,0,-1),a.lookAt(0,-1,0),o.up.set(0,-1,0),o.lookAt(0,0,1),s.up.set(0,-1,0),s.lookAt(0,0,-1);else throw Error(`THREE.CubeCamera.updateCoordinateSystem(): Invalid coordinate system: `+e);for(let e of t)this.add(e),e.updateMatrixWorld()}update(e,t){this.parent===null&&this.updateMatrixWorld();let{renderTarget:n,activeMipmapLevel:r}=this;this.coordinateSystem!==e.coordinateSystem&&(this.coordinateSystem=e.coordinateSystem,this.updateCoordinateSystem());let[i,a,o,s,c,l]=this.children,u=e.getRenderTarget(),d=e.getActiveCubeFace(),f=e.getActiveMipmapLevel(),p=e.xr.enabled;e.xr.enabled=!1;let m=n.texture.mipmapsAutoUpdate;n.texture.mipmapsAutoUpdate=!1;let h=!1;h=e.isWebGLRenderer===!0?e.state.buffers.depth.getReversed():e.reversedDepthBuffer,e.setRenderTarget(n,0,r),h&&e.autoClear===!1&&e.clearDepth(),e.render(t,i),e.setRenderTarget(n,1,r),h&&e.autoClear===!1&&e.clearDepth(),e.render(t,a),e.setRenderTarget(n,2,r),h&&e.autoClear===!1&&e.clearDepth(),e.render(t,o),e.setRenderTarget(n,3,r),h&&e.autoClear===!1&&e.clearDepth(),e.render(t,s),e.setRenderTarget(n,4,r),h&&e.autoClear===!1&&e.clearDepth(),e.render(t,c),n.texture.mipmapsAutoUpdate=m,e.setRenderTarget(n,5,r),h&&e.autoClear===!1&&e.clearDepth(),e.render(t,l),e.setRenderTarget(u,d,f),e.xr.enabled=p,n.texture.needsPMREMUpdate=!0}},Gl=class extends Ll{constructor(e=[]){super(),this.isArrayCamera=!0,this.isMultiViewCamera=!1,this.cameras=e,this.perCameraFrustumCulled=!1}},Kl=`\\[\\]\\.:\\/`,ql=RegExp(`[\\[\\]\\.:\\/]`,`g`),Jl=`[^\\[\\]\\.:\\/]`,Yl=`[^`+Kl.replace(`\\.`,``)+`]`,Xl=`((?:WC+[\\/:])*)`.replace(`WC`,Jl),Zl=`(WCOD+)?`.replace(`WCOD`,Yl),Ql=`(?:\\.(WC+)(?:\\[(.+)\\])?)?`.replace(`WC`,Jl),$l=`\\.(WC+)(?:\\[(.+)\\])?`.replace(`WC`,Jl),eu=RegExp(`^`+Xl+Zl+Ql+$l+`$`),tu=[`material`,`materials`,`bones`,`map`],nu=class{constructor(e,t,n){let r=n||ru.parseTrackName(t);this._targetGroup=e,this._bindings=e.subscribe_(t,r)}getValue(e,t){this.bind();let n=this._targetGroup.nCachedObjects_,r=this._bindings[n];r!==void 0&&r.getValue(e,t)}setValue(e,t){let n=this._bindings;for(let r=this._targetGroup.nCachedObjects_,i=n.length;r!==i;++r)n[r].setValue(e,t)}bind(){let e=this._bindings;for(let t=this._targetGroup.nCachedObjects_,n=e.length;t!==n;++t)e[t].bind()}unbind(){let e=this._bindings;for(let t=this._targetGroup.nCachedObjects_,n=e.length;t!==n;++t)e[t].unbind()}},ru=class e{constructor(t,n,r){this.path=n,this.parsedPath=r||e.parseTrackName(n),this.node=e.findNode(t,this.parsedPath.nodeName),this.rootNode=t,this.getValue=this._getValue_unbound,this.setValue=this._setValue_unbound}static create(t,n,r){return t&&t.isAnimationObjectGroup?new e.Composite(t,n,r):new e(t,n,r)}static sanitizeNodeName(e){return e.replace(/\s/g,`_`).replace(ql,``)}static parseTrackName(e){let t=eu.exec(e);if(t===null)throw Error(`THREE.PropertyBinding: Cannot parse trackName: `+e);let n={nodeName:t[2],objectName:t[3],objectIndex:t[4],propertyName:t[5],propertyIndex:t[6]},r=n.nodeName&&n.nodeName.lastIndexOf(`.`);if(r!==void 0&&r!==-1){let e=n.nodeName.substring(r+1);tu.indexOf(e)!==-1&&(n.nodeName=n.nodeName.substring(0,r),n.objectName=e)}if(n.propertyName===null||n.propertyName.length===0)throw Error(`THREE.PropertyBinding: can not parse propertyName from trackName: `+e);return n}static findNode(e,t){if(t===void 0||t===``||t===`.`||t===-1||t===e.name||t===e.uuid)return e;if(e.skeleton){let n=e.skeleton.getBoneByName(t);if(n!==void 0)return n}if(e.children){let n=function(e){for(let r=0;r<e.length;r++){let i=e[r];if(i.name===t||i.uuid===t)return i;let a=n(i.children);if(a)return a}return null},r=n(e.children);if(r)return r}return null}_getValue_unavailable(){}_setValue_unavailable(){}_getValue_direct(e,t){e[t]=this.targetObject[this.propertyName]}_getValue_array(e,t){let n=this.resolvedProperty;for(let r=0,i=n.length;r!==i;++r)e[t++]=n[r]}_getValue_arrayElement(e,t){e[t]=this.resolvedProperty[this.propertyIndex]}_getValue_toArray(e,t){this.resolvedProperty.toArray(e,t)}_setValue_direct(e,t){this.targetObject[this.propertyName]=e[t]}_setValue_direct_setNeedsUpdate(e,t){this.targetObject[this.propertyName]=e[t],this.targetObject.needsUpdate=!0}_setValue_direct_setMatrixWorldNeedsUpdate(e,t){this.targetObject[this.propertyName]=e[t],this.targetObject.matrixWorldNeedsUpdate=!0}_setValue_array(e,t){let n=this.resolvedProperty;for(let r=0,i=n.length;r!==i;++r)n[r]=e[t++]}_setValue_array_setNeedsUpdate(e,t){let n=this.resolvedProperty;for(let r=0,i=n.length;r!==i;++r)n[r]=e[t++];this.targetObject.needsUpdate=!0}_setValue_array_setMatrixWorldNeedsUpdate(e,t){let n=this.resolvedProperty;for(let r=0,i=n.length;r!==i;++r)n[r]=e[t++];this.targetObject.matrixWorldNeedsUpdate=!0}_setValue_arrayElement(e,t){this.resolvedProperty[this.propertyIndex]=e[t]}_setValue_arrayElement_setNeedsUpdate(e,t){this.resolvedProperty[this.propertyIndex]=e[t],this.targetObject.needsUpdate=!0}_setValue_arrayElement_setMatrixWorldNeedsUpdate(e,t){this.resolvedProperty[this.propertyIndex]=e[t],this.targetObject.matrixWorldNeedsUpdate=!0}_setValue_fromArray(e,t){this.resolvedProperty.fromArray(e,t)}_setValue_fromArray_setNeedsUpdate(e,t){this.resolvedProperty.fromArray(e,t),this.targetObject.needsUpdate=!0}_setValue_fromArray_setMatrixWorldNeedsUpdate(e,t){this.resolvedProperty.fromArray(e,t),this.targetObject.matrixWorldNeedsUpdate=!0}_getValue_unbound(e,t){this.bind(),this.getValue(e,t)}_setValue_unbound(e,t){this.bind(),this.setValue(e,t)}bind(){let t=this.node,n=this.parsedPath,r=n.objectName,i=n.propertyName,a=n.propertyIndex;if(t||(t=e.findNode(this.rootNode,n.nodeName),this.node=t),this.getValue=this._getValue_unavailable,this.setValue=this._setValue_unavailable,!t){K(`PropertyBinding: No target node found for track: `+this.path+`.`);return}if(r){let e=n.objectIndex;switch(r){case`materials`:if(!t.material){q(`PropertyBinding: Can not bind to material as node does not have a material.`,this);return}if(!t.material.materials){q(`PropertyBinding: Can not bind to material.materials as node.material does not have a materials array.`,this);return}t=t.material.materials;break;case`bones`:if(!t.skeleton){q(`PropertyBinding: Can not bind to bones as node does not have a skeleton.`,this);return}t=t.skeleton.bones;for(let n=0;n<t.length;n++)if(t[n].name===e){e=n;break}break;case`map`:if(`map`in t){t=t.map;break}if(!t.material){q(`PropertyBinding: Can not bind to material as node does not have a material.`,this);return}if(!t.material.map){q(`PropertyBinding: Can not bind to material.map as node.material does not have a map.`,this);return}t=t.material.map;break;default:if(t[r]===void 0){q(`PropertyBinding: Can not bind to objectName of node undefined.`,this);return}t=t[r]}if(e!==void 0){if(t[e]===void 0){q(`PropertyBinding: Trying to bind to objectIndex of objectName, but is undefined.`,this,t);return}t=t[e]}}let o=t[i];if(o===void 0){let e=n.nodeName;q(`PropertyBinding: Trying to update property for track: `+e+`.`+i+` but it wasn't found.`,t);return}let s=this.Versioning.None;this.targetObject=t,t.isMaterial===!0?s=this.Versioning.NeedsUpdate:t.isObject3D===!0&&(s=this.Versioning.MatrixWorldNeedsUpdate);let c=this.BindingType.Direct;if(a!==void 0){if(i===`morphTargetInfluences`){if(!t.geometry){q(`PropertyBinding: Can not bind to morphTargetInfluences because node does not have a geometry.`,this);return}if(!t.geometry.morphAttributes){q(`PropertyBinding: Can not bind to morphTargetInfluences because node does not have a geometry.morphAttributes.`,this);return}t.morphTargetDictionary[a]!==void 0&&(a=t.morphTargetDictionary[a])}c=this.BindingType.ArrayElement,this.resolvedProperty=o,this.propertyIndex=a}else o.fromArray!==void 0&&o.toArray!==void 0?(c=this.BindingType.HasFromToArray,this.resolvedProperty=o):Array.isArray(o)?(c=this.BindingType.EntireArray,this.resolvedProperty=o):this.propertyName=i;this.getValue=this.GetterByBindingType[c],this.setValue=this.SetterByBindingTypeAndVersioning[c][s]}unbind(){this.node=null,this.getValue=this._getValue_unbound,this.setValue=this._setValue_unbound}};ru.Composite=nu,ru.prototype.BindingType={Direct:0,EntireArray:1,ArrayElement:2,HasFromToArray:3},ru.prototype.Versioning={None:0,NeedsUpdate:1,MatrixWorldNeedsUpdate:2},ru.prototype.GetterByBindingType=[ru.prototype._getValue_direct,ru.prototype._getValue_array,ru.prototype._getValue_arrayElement,ru.prototype._getValue_toArray],ru.prototype.SetterByBindingTypeAndVersioning=[[ru.prototype._setValue_direct,ru.prototype._setValue_direct_setNeedsUpdate,ru.prototype._setValue_direct_setMatrixWorldNeedsUpdate],[ru.prototype._setValue_array,ru.prototype._setValue_array_setNeedsUpdate,ru.prototype._setValue_array_setMatrixWorldNeedsUpdate],[ru.prototype._setValue_arrayElement,ru.prototype._setValue_arrayElement_setNeedsUpdate,ru.prototype._setValue_arrayElement_setMatrixWorldNeedsUpdate],[ru.prototype._setValue_fromArray,ru.prototype._setValue_fromArray_setNeedsUpdate,ru.prototype._setValue_fromArray_setMatrixWorldNeedsUpdate]];var iu=new vo,au=class{constructor(e,t,n=0,r=1/0){this.ray=new oc(e,t),this.near=n,this.far=r,this.camera=null,this.layers=new ko,this.params={Mesh:{},Line:{threshold:1},LOD:{},Points:{threshold:1},Sprite:{}}}set(e,t){this.ray.set(e,t)}setFromCamera(e,t){t.isPerspectiveCamera?(this.ray.origin.setFromMatrixPosition(t.matrixWorld),this.ray.direction.set(e.x,e.y,.5).unproject(t).sub(this.ray.origin).normalize(),this.camera=t):t.isOrthographicCamera?(this.ray.origin.set(e.x,e.y,t.projectionMatrix.elements[14]).unproject(t),this.ray.direction.set(0,0,-1).transformDirection(t.matrixWorld),this.camera=t):q(`Raycaster: Unsupported camera type: `+t.type)}setFromXRController(e){return iu.identity().extractRotation(e.matrixWorld),this.ray.origin.setFromMatrixPosition(e.matrixWorld),this.ray.direction.set(0,0,-1).applyMatrix4(iu),this}intersectObject(e,t=!0,n=[]){return su(e,this,n,t),n.sort(ou),n}intersectObjects(e,t=!0,n=[]){for(let r=0,i=e.length;r<i;r++)su(e[r],this,n,t);return n.sort(ou),n}};function ou(e,t){return e.distance-t.distance}function su(e,t,n,r){let i=!0;if(e.layers.test(t.layers)&&e.raycast(t,n)===!1&&(i=!1),i===!0&&r===!0){let r=e.children;for(let e=0,i=r.length;e<i;e++)su(r[e],t,n,!0)}}(class{static{this.prototype.isMatrix2=!0}constructor(e,t,n,r){this.elements=[1,0,0,1],e!==void 0&&this.set(e,t,n,r)}identity(){return this.set(1,0,0,1),this}fromArray(e,t=0){for(let n=0;n<4;n++)this.elements[n]=e[n+t];return this}set(e,t,n,r){let i=this.elements;return i[0]=e,i[2]=t,i[1]=n,i[3]=r,this}});var cu=new X,lu=new X,uu=new X,du=new X,fu=new X,pu=new X,mu=new X,hu=class{constructor(e=new X,t=new X){this.start=e,this.end=t}set(e,t){return this.start.copy(e),this.end.copy(t),this}copy(e){return this.start.copy(e.start),this.end.copy(e.end),this}getCenter(e){return e.addVectors(this.start,this.end).multiplyScalar(.5)}delta(e){return e.subVectors(this.end,this.start)}distanceSq(){return this.start.distanceToSquared(this.end)}distance(){return this.start.distanceTo(this.end)}at(e,t){return this.delta(t).multiplyScalar(e).add(this.start)}closestPointToPointParameter(e,t){cu.subVectors(e,this.start),lu.subVectors(this.end,this.start);let n=lu.dot(lu);if(n===0)return 0;let r=lu.dot(cu)/n;return t&&(r=J(r,0,1)),r}closestPointToPoint(e,t,n){let r=this.closestPointToPointParameter(e,t);return this.delta(n).multiplyScalar(r).add(this.start)}distanceSqToLine3(e,t=pu,n=mu){let r=1e-8*1e-8,i,a,o=this.start,s=e.start,c=this.end,l=e.end;uu.subVectors(c,o),du.subVectors(l,s),fu.subVectors(o,s);let u=uu.dot(uu),d=du.dot(du),f=du.dot(fu);if(u<=r&&d<=r)return t.copy(o),n.copy(s),t.distanceToSquared(n);if(u<=r)i=0,a=f/d,a=J(a,0,1);else{let e=uu.dot(fu);if(d<=r)a=0,i=J(-e/u,0,1);else{let t=uu.dot(du),n=u*d-t*t;i=n===0?0:J((t*f-e*d)/n,0,1),a=(t*i+f)/d,a<0?(a=0,i=J(-e/u,0,1)):a>1&&(a=1,i=J((t-e)/u,0,1))}}return t.copy(o).addScaledVector(uu,i),n.copy(s).addScaledVector(du,a),t.distanceToSquared(n)}applyMatrix4(e){return this.start.applyMatrix4(e),this.end.applyMatrix4(e),this}equals(e){return e.start.equals(this.start)&&e.end.equals(this.end)}clone(){return new this.constructor().copy(this)}};function gu(e,t,n,r){let i=_u(r);switch(n){case ri:return e*t;case ci:return e*t/i.components*i.byteLength;case li:return e*t/i.components*i.byteLength;case ui:return e*t*2/i.components*i.byteLength;case di:return e*t*2/i.components*i.byteLength;case ii:return e*t*3/i.components*i.byteLength;case ai:return e*t*4/i.components*i.byteLength;case fi:return e*t*4/i.components*i.byteLength;case pi:case mi:return Math.floor((e+3)/4)*Math.floor((t+3)/4)*8;case hi:case gi:return Math.floor((e+3)/4)*Math.floor((t+3)/4)*16;case vi:case bi:return Math.max(e,16)*Math.max(t,8)/4;case _i:case yi:return Math.max(e,8)*Math.max(t,8)/2;case xi:case Si:case wi:case Ti:return Math.floor((e+3)/4)*Math.floor((t+3)/4)*8;case Ci:case Ei:case Di:return Math.floor((e+3)/4)*Math.floor((t+3)/4)*16;case Oi:return Math.floor((e+3)/4)*Math.floor((t+3)/4)*16;case ki:return Math.floor((e+4)/5)*Math.floor((t+3)/4)*16;case Ai:return Math.floor((e+4)/5)*Math.floor((t+4)/5)*16;case ji:return Math.floor((e+5)/6)*Math.floor((t+4)/5)*16;case Mi:return Math.floor((e+5)/6)*Math.floor((t+5)/6)*16;case Ni:return Math.floor((e+7)/8)*Math.floor((t+4)/5)*16;case Pi:return Math.floor((e+7)/8)*Math.floor((t+5)/6)*16;case Fi:return Math.floor((e+7)/8)*Math.floor((t+7)/8)*16;case Ii:return Math.floor((e+9)/10)*Math.floor((t+4)/5)*16;case Li:return Math.floor((e+9)/10)*Math.floor((t+5)/6)*16;case Ri:return Math.floor((e+9)/10)*Math.floor((t+7)/8)*16;case zi:return Math.floor((e+9)/10)*Math.floor((t+9)/10)*16;case Bi:return Math.floor((e+11)/12)*Math.floor((t+9)/10)*16;case Vi:return Math.floor((e+11)/12)*Math.floor((t+11)/12)*16;case Hi:case Ui:case Wi:return Math.ceil(e/4)*Math.ceil(t/4)*16;case Gi:case Ki:return Math.ceil(e/4)*Math.ceil(t/4)*8;case qi:case Ji:return Math.ceil(e/4)*Math.ceil(t/4)*16}throw Error(`Unable to determine texture byte length for ${n} format.`)}function _u(e){switch(e){case Wr:case Gr:return{byteLength:1,components:1};case qr:case Kr:case Zr:return{byteLength:2,components:1};case Qr:case $r:return{byteLength:2,components:4};case Yr:case Jr:case Xr:return{byteLength:4,components:1};case ti:case ni:return{byteLength:4,components:3}}throw Error(`THREE.TextureUtils: Unknown texture type ${e}.`)}typeof __THREE_DEVTOOLS__<`u`&&__THREE_DEVTOOLS__.dispatchEvent(new CustomEvent(`register`,{detail:{revision:`187`}})),typeof window<`u`&&(window.__THREE__?K(`WARNING: Multiple instances of Three.js being imported.`):window.__THREE__=`187`);function vu(){let e=null,t=!1,n=null,r=null;function i(t,a){r=e.requestAnimationFrame(i),n(t,a)}return{start:function(){t!==!0&&n!==null&&e!==null&&(r=e.requestAnimationFrame(i),t=!0)},stop:function(){e!==null&&e.cancelAnimationFrame(r),t=!1},setAnimationLoop:function(e){n=e},setContext:function(t){e=t}}}function yu(e){let t=new WeakMap;function n(t,n){let r=t.array,i=t.usage,a=r.byteLength,o=e.createBuffer();e.bindBuffer(n,o),e.bufferData(n,r,i),t.onUploadCallback();let s;if(r instanceof Float32Array)s=e.FLOAT;else if(typeof Float16Array<`u`&&r instanceof Float16Array)s=e.HALF_FLOAT;else if(r instanceof Uint16Array)s=t.isFloat16BufferAttribute?e.HALF_FLOAT:e.UNSIGNED_SHORT;else if(r instanceof Int16Array)s=e.SHORT;else if(r instanceof Uint32Array)s=e.UNSIGNED_INT;else if(r instanceof Int32Array)s=e.INT;else if(r instanceof Int8Array)s=e.BYTE;else if(r instanceof Uint8Array)s=e.UNSIGNED_BYTE;else if(r instanceof Uint8ClampedArray)s=e.UNSIGNED_BYTE;else throw Error(`THREE.WebGLAttributes: Unsupported buffer data format: `+r);return{buffer:o,type:s,bytesPerElement:r.BYTES_PER_ELEMENT,version:t.version,size:a}}function r(t,n,r){let i=n.array,a=n.updateRanges;if(e.bindBuffer(r,t),a.length===0)e.bufferSubData(r,0,i);else{a.sort((e,t)=>e.start-t.start);let t=0;for(let e=1;e<a.length;e++){let n=a[t],r=a[e];r.start<=n.start+n.count+1?n.count=Math.max(n.count,r.start+r.count-n.start):(++t,a[t]=r)}a.length=t+1;for(let t=0,n=a.length;t<n;t++){let n=a[t];e.bufferSubData(r,n.start*i.BYTES_PER_ELEMENT,i,n.start,n.count)}n.clearUpdateRanges()}n.onUploadCallback()}function i(e){return e.isInterleavedBufferAttribute&&(e=e.data),t.get(e)}function a(n){n.isInterleavedBufferAttribute&&(n=n.data);let r=t.get(n);r&&(e.deleteBuffer(r.buffer),t.delete(n))}function o(e,i){if(e.isInterleavedBufferAttribute&&(e=e.data),e.isGLBufferAttribute){let n=t.get(e);(!n||n.version<e.version)&&t.set(e,{buffer:e.buffer,type:e.type,bytesPerElement:e.elementSize,version:e.version});return}let a=t.get(e);if(a===void 0)t.set(e,n(e,i));else if(a.version<e.version){if(a.size!==e.array.byteLength)throw Error(`THREE.WebGLAttributes: The size of the buffer attribute's array buffer does not match the original size. Resizing buffer attributes is not supported.`);r(a.buffer,e,i),a.version=e.version}}return{get:i,remove:a,update:o}}var Q={alphahash_fragment:`#ifdef USE_ALPHAHASH
	if ( diffuseColor.a < getAlphaHashThreshold( vPosition ) ) discard;
#endif`,alphahash_pars_fragment:`#ifdef USE_ALPHAHASH
	const float ALPHA_HASH_SCALE = 0.05;
	float hash2D( vec2 value ) {
		return fract( 1.0e4 * sin( 17.0 * value.x + 0.1 * value.y ) * ( 0.1 + abs( sin( 13.0 * value.y + value.x ) ) ) );
	}
	float hash3D( vec3 value ) {
		return hash2D( vec2( hash2D( value.xy ), value.z ) );
	}
	float getAlphaHashThreshold( vec3 position ) {
		float maxDeriv = max(
			length( dFdx( position.xyz ) ),
			length( dFdy( position.xyz ) )
		);
		float pixScale = 1.0 / ( ALPHA_HASH_SCALE * maxDeriv );
		vec2 pixScales = vec2(
			exp2( floor( log2( pixScale ) ) ),
			exp2( ceil( log2( pixScale ) ) )
		);
		vec2 alpha = vec2(
			hash3D( floor( pixScales.x * position.xyz ) ),
			hash3D( floor( pixScales.y * position.xyz ) )
		);
		float lerpFactor = fract( log2( pixScale ) );
		float x = ( 1.0 - lerpFactor ) * alpha.x + lerpFactor * alpha.y;
		float a = min( lerpFactor, 1.0 - lerpFactor );
		vec3 cases = vec3(
			x * x / ( 2.0 * a * ( 1.0 - a ) ),
			( x - 0.5 * a ) / ( 1.0 - a ),
			1.0 - ( ( 1.0 - x ) * ( 1.0 - x ) / ( 2.0 * a * ( 1.0 - a ) ) )
		);
		float threshold = ( x < ( 1.0 - a ) )
			? ( ( x < a ) ? cases.x : cases.y )
			: cases.z;
		return clamp( threshold , 1.0e-6, 1.0 );
	}
#endif`,alphamap_fragment:`#ifdef USE_ALPHAMAP
	diffuseColor.a *= texture2D( alphaMap, vAlphaMapUv ).g;
#endif`,alphamap_pars_fragment:`#ifdef USE_ALPHAMAP
	uniform sampler2D alphaMap;
#endif`,alphatest_fragment:`#ifdef USE_ALPHATEST
	#ifdef ALPHA_TO_COVERAGE
	diffuseColor.a = smoothstep( alphaTest, alphaTest + fwidth( diffuseColor.a ), diffuseColor.a );
	if ( diffuseColor.a == 0.0 ) discard;
	#else
	if ( diffuseColor.a < alphaTest ) discard;
	#endif
#endif`,alphatest_pars_fragment:`#ifdef USE_ALPHATEST
	uniform float alphaTest;
#endif`,aomap_fragment:`#ifdef USE_AOMAP
	float ambientOcclusion = ( texture2D( aoMap, vAoMapUv ).r - 1.0 ) * aoMapIntensity + 1.0;
	reflectedLight.indirectDiffuse *= ambientOcclusion;
	#if defined( USE_CLEARCOAT ) 
		clearcoatSpecularIndirect *= ambientOcclusion;
	#endif
	#if defined( USE_SHEEN ) 
		sheenSpecularIndirect *= ambientOcclusion;
	#endif
	#if defined( USE_ENVMAP ) && defined( STANDARD )
		float dotNV = saturate( dot( geometryNormal, geometryViewDir ) );
		reflectedLight.indirectSpecular *= computeSpecularOcclusion( dotNV, ambientOcclusion, material.roughness );
	#endif
#endif`,aomap_pars_fragment:`#ifdef USE_AOMAP
	uniform sampler2D aoMap;
	uniform float aoMapIntensity;
#endif`,batching_pars_vertex:`#ifdef USE_BATCHING
	#if ! defined( GL_ANGLE_multi_draw )
	#define gl_DrawID _gl_DrawID
	uniform int _gl_DrawID;
	#endif
	uniform highp sampler2D batchingTexture;
	uniform highp usampler2D batchingIdTexture;
	mat4 getBatchingMatrix( const in float i ) {
		int size = textureSize( batchingTexture, 0 ).x;
		int j = int( i ) * 4;
		int x = j % size;
		int y = j / size;
		vec4 v1 = texelFetch( batchingTexture, ivec2( x, y ), 0 );
		vec4 v2 = texelFetch( batchingTexture, ivec2( x + 1, y ), 0 );
		vec4 v3 = texelFetch( batchingTexture, ivec2( x + 2, y ), 0 );
		vec4 v4 = texelFetch( batchingTexture, ivec2( x + 3, y ), 0 );
		return mat4( v1, v2, v3, v4 );
	}
	float getIndirectIndex( const in int i ) {
		int size = textureSize( batchingIdTexture, 0 ).x;
		int x = i % size;
		int y = i / size;
		return float( texelFetch( batchingIdTexture, ivec2( x, y ), 0 ).r );
	}
#endif
#ifdef USE_BATCHING_COLOR
	uniform sampler2D batchingColorTexture;
	vec4 getBatchingColor( const in float i ) {
		int size = textureSize( batchingColorTexture, 0 ).x;
		int j = int( i );
		int x = j % size;
		int y = j / size;
		return texelFetch( batchingColorTexture, ivec2( x, y ), 0 );
	}
#endif`,batching_vertex:`#ifdef USE_BATCHING
	mat4 batchingMatrix = getBatchingMatrix( getIndirectIndex( gl_DrawID ) );
#endif`,begin_vertex:`vec3 transformed = vec3( position );
#ifdef USE_ALPHAHASH
	vPosition = vec3( position );
#endif`,beginnormal_vertex:`vec3 objectNormal = vec3( normal );
#ifdef USE_TANGENT
	vec3 objectTangent = vec3( tangent.xyz );
#endif`,bsdfs:`float G_BlinnPhong_Implicit( ) {
	return 0.25;
}
float D_BlinnPhong( const in float shininess, const in float dotNH ) {
	return RECIPROCAL_PI * ( shininess * 0.5 + 1.0 ) * pow( dotNH, shininess );
}
vec3 BRDF_BlinnPhong( const in vec3 lightDir, const in vec3 viewDir, const in vec3 normal, const in vec3 specularColor, const in float shininess ) {
	vec3 halfDir = normalize( lightDir + viewDir );
	float dotNH = saturate( dot( normal, halfDir ) );
	float dotVH = saturate( dot( viewDir, halfDir ) );
	vec3 F = F_Schlick( specularColor, 1.0, dotVH );
	float G = G_BlinnPhong_Implicit( );
	float D = D_BlinnPhong( shininess, dotNH );
	return F * ( G * D );
} // validated`,iridescence_fragment:`#ifdef USE_IRIDESCENCE
	const mat3 XYZ_TO_REC709 = mat3(
		 3.2404542, -0.9692660,  0.0556434,
		-1.5371385,  1.8760108, -0.2040259,
		-0.4985314,  0.0415560,  1.0572252
	);
	vec3 Fresnel0ToIor( vec3 fresnel0 ) {
		vec3 sqrtF0 = sqrt( fresnel0 );
		return ( vec3( 1.0 ) + sqrtF0 ) / ( vec3( 1.0 ) - sqrtF0 );
	}
	vec3 IorToFresnel0( vec3 transmittedIor, float incidentIor ) {
		return pow2( ( transmittedIor - vec3( incidentIor ) ) / ( transmittedIor + vec3( incidentIor ) ) );
	}
	float IorToFresnel0( float transmittedIor, float incidentIor ) {
		return pow2( ( transmittedIor - incidentIor ) / ( transmittedIor + incidentIor ));
	}
	vec3 evalSensitivity( float OPD, vec3 shift ) {
		float phase = 2.0 * PI * OPD * 1.0e-9;
		vec3 val = vec3( 5.4856e-13, 4.4201e-13, 5.2481e-13 );
		vec3 pos = vec3( 1.6810e+06, 1.7953e+06, 2.2084e+06 );
		vec3 var = vec3( 4.3278e+09, 9.3046e+09, 6.6121e+09 );
		vec3 xyz = val * sqrt( 2.0 * PI * var ) * cos( pos * phase + shift ) * exp( - pow2( phase ) * var );
		xyz.x += 9.7470e-14 * sqrt( 2.0 * PI * 4.5282e+09 ) * cos( 2.2399e+06 * phase + shift[ 0 ] ) * exp( - 4.5282e+09 * pow2( phase ) );
		xyz /= 1.0685e-7;
		vec3 rgb = XYZ_TO_REC709 * xyz;
		return rgb;
	}
	vec3 evalIridescence( float outsideIOR, float eta2, float cosTheta1, float thinFilmThickness, vec3 baseF0 ) {
		vec3 I;
		float iridescenceIOR = mix( outsideIOR, eta2, smoothstep( 0.0, 0.03, thinFilmThickness ) );
		float sinTheta2Sq = pow2( outsideIOR / iridescenceIOR ) * ( 1.0 - pow2( cosTheta1 ) );
		float cosTheta2Sq = 1.0 - sinTheta2Sq;
		if ( cosTheta2Sq < 0.0 ) {
			return vec3( 1.0 );
		}
		float cosTheta2 = sqrt( cosTheta2Sq );
		float R0 = IorToFresnel0( iridescenceIOR, outsideIOR );
		float R12 = F_Schlick( R0, 1.0, cosTheta1 );
		float T121 = 1.0 - R12;
		float phi12 = 0.0;
		if ( iridescenceIOR < outsideIOR ) phi12 = PI;
		float phi21 = PI - phi12;
		vec3 baseIOR = Fresnel0ToIor( clamp( baseF0, 0.0, 0.9999 ) );		vec3 R1 = IorToFresnel0( baseIOR, iridescenceIOR );
		vec3 R23 = F_Schlick( R1, 1.0, cosTheta2 );
		vec3 phi23 = vec3( 0.0 );
		if ( baseIOR[ 0 ] < iridescenceIOR ) phi23[ 0 ] = PI;
		if ( baseIOR[ 1 ] < iridescenceIOR ) phi23[ 1 ] = PI;
		if ( baseIOR[ 2 ] < iridescenceIOR ) phi23[ 2 ] = PI;
		float OPD = 2.0 * iridescenceIOR * thinFilmThickness * cosTheta2;
		vec3 phi = vec3( phi21 ) + phi23;
		vec3 R123 = clamp( R12 * R23, 1e-5, 0.9999 );
		vec3 r123 = sqrt( R123 );
		vec3 Rs = pow2( T121 ) * R23 / ( vec3( 1.0 ) - R123 );
		vec3 C0 = R12 + Rs;
		I = C0;
		vec3 Cm = Rs - T121;
		for ( int m = 1; m <= 2; ++ m ) {
			Cm *= r123;
			vec3 Sm = 2.0 * evalSensitivity( float( m ) * OPD, float( m ) * phi );
			I += Cm * Sm;
		}
		return max( I, vec3( 0.0 ) );
	}
#endif`,bumpmap_pars_fragment:`#ifdef USE_BUMPMAP
	uniform sampler2D bumpMap;
	uniform float bumpScale;
	vec2 dHdxy_fwd() {
		vec2 dSTdx = dFdx( vBumpMapUv );
		vec2 dSTdy = dFdy( vBumpMapUv );
		float Hll = bumpScale * texture2D( bumpMap, vBumpMapUv ).x;
		float dBx = bumpScale * texture2D( bumpMap, vBumpMapUv + dSTdx ).x - Hll;
		float dBy = bumpScale * texture2D( bumpMap, vBumpMapUv + dSTdy ).x - Hll;
		return vec2( dBx, dBy );
	}
	vec3 perturbNormalArb( vec3 surf_pos, vec3 surf_norm, vec2 dHdxy, float faceDirection ) {
		vec3 vSigmaX = normalize( dFdx( surf_pos.xyz ) );
		vec3 vSigmaY = normalize( dFdy( surf_pos.xyz ) );
		vec3 vN = surf_norm;
		vec3 R1 = cross( vSigmaY, vN );
		vec3 R2 = cross( vN, vSigmaX );
		float fDet = dot( vSigmaX, R1 ) * faceDirection;
		vec3 vGrad = sign( fDet ) * ( dHdxy.x * R1 + dHdxy.y * R2 );
		return normalize( abs( fDet ) * surf_norm - vGrad );
	}
#endif`,clipping_planes_fragment:`#if NUM_CLIPPING_PLANES > 0
	vec4 plane;
	#ifdef ALPHA_TO_COVERAGE
		float distanceToPlane, distanceGradient;
		float clipOpacity = 1.0;
		#pragma unroll_loop_start
		for ( int i = 0; i < UNION_CLIPPING_PLANES; i ++ ) {
			plane = clippingPlanes[ i ];
			distanceToPlane = - dot( vClipPosition, plane.xyz ) + plane.w;
			distanceGradient = fwidth( distanceToPlane ) / 2.0;
			clipOpacity *= smoothstep( - distanceGradient, distanceGradient, distanceToPlane );
			if ( clipOpacity == 0.0 ) discard;
		}
		#pragma unroll_loop_end
		#if UNION_CLIPPING_PLANES < NUM_CLIPPING_PLANES
			float unionClipOpacity = 1.0;
			#pragma unroll_loop_start
			for ( int i = UNION_CLIPPING_PLANES; i < NUM_CLIPPING_PLANES; i ++ ) {
				plane = clippingPlanes[ i ];
				distanceToPlane = - dot( vClipPosition, plane.xyz ) + plane.w;
				distanceGradient = fwidth( distanceToPlane ) / 2.0;
				unionClipOpacity *= 1.0 - smoothstep( - distanceGradient, distanceGradient, distanceToPlane );
			}
			#pragma unroll_loop_end
			clipOpacity *= 1.0 - unionClipOpacity;
		#endif
		diffuseColor.a *= clipOpacity;
		if ( diffuseColor.a == 0.0 ) discard;
	#else
		#pragma unroll_loop_start
		for ( int i = 0; i < UNION_CLIPPING_PLANES; i ++ ) {
			plane = clippingPlanes[ i ];
			if ( dot( vClipPosition, plane.xyz ) > plane.w ) discard;
		}
		#pragma unroll_loop_end
		#if UNION_CLIPPING_PLANES < NUM_CLIPPING_PLANES
			bool clipped = true;
			#pragma unroll_loop_start
			for ( int i = UNION_CLIPPING_PLANES; i < NUM_CLIPPING_PLANES; i ++ ) {
				plane = clippingPlanes[ i ];
				clipped = ( dot( vClipPosition, plane.xyz ) > plane.w ) && clipped;
			}
			#pragma unroll_loop_end
			if ( clipped ) discard;
		#endif
	#endif
#endif`,clipping_planes_pars_fragment:`#if NUM_CLIPPING_PLANES > 0
	varying vec3 vClipPosition;
	uniform vec4 clippingPlanes[ NUM_CLIPPING_PLANES ];
#endif`,clipping_planes_pars_vertex:`#if NUM_CLIPPING_PLANES > 0
	varying vec3 vClipPosition;
#endif`,clipping_planes_vertex:`#if NUM_CLIPPING_PLANES > 0
	vClipPosition = - mvPosition.xyz;
#endif`,color_fragment:`#if defined( USE_COLOR ) || defined( USE_COLOR_ALPHA )
	diffuseColor *= vColor;
#endif`,color_pars_fragment:`#if defined( USE_COLOR ) || defined( USE_COLOR_ALPHA )
	varying vec4 vColor;
#endif`,color_pars_vertex:`#if defined( USE_COLOR ) || defined( USE_COLOR_ALPHA ) || defined( USE_INSTANCING_COLOR ) || defined( USE_BATCHING_COLOR )
	varying vec4 vColor;
#endif`,color_vertex:`#if defined( USE_COLOR ) || defined( USE_COLOR_ALPHA ) || defined( USE_INSTANCING_COLOR ) || defined( USE_BATCHING_COLOR )
	vColor = vec4( 1.0 );
#endif
#ifdef USE_COLOR_ALPHA
	vColor *= color;
#elif defined( USE_COLOR )
	vColor.rgb *= color;
#endif
#ifdef USE_INSTANCING_COLOR
	vColor.rgb *= instanceColor.rgb;
#endif
#ifdef USE_BATCHING_COLOR
	vColor *= getBatchingColor( getIndirectIndex( gl_DrawID ) );
#endif`,common:`#define PI 3.141592653589793
#define PI2 6.283185307179586
#define PI_HALF 1.5707963267948966
#define RECIPROCAL_PI 0.3183098861837907
#define RECIPROCAL_PI2 0.15915494309189535
#define EPSILON 1e-6
#ifndef saturate
#define saturate( a ) clamp( a, 0.0, 1.0 )
#endif
#define whiteComplement( a ) ( 1.0 - saturate( a ) )
float pow2( const in float x ) { return x*x; }
vec3 pow2( const in vec3 x ) { return x*x; }
float pow3( const in float x ) { return x*x*x; }
float pow4( const in float x ) { float x2 = x*x; return x2*x2; }
float max3( const in vec3 v ) { return max( max( v.x, v.y ), v.z ); }
float average( const in vec3 v ) { return dot( v, vec3( 0.3333333 ) ); }
highp float rand( const in vec2 uv ) {
	const highp float a = 12.9898, b = 78.233, c = 43758.5453;
	highp float dt = dot( uv.xy, vec2( a,b ) ), sn = mod( dt, PI );
	return fract( sin( sn ) * c );
}
#ifdef HIGH_PRECISION
	float precisionSafeLength( vec3 v ) { return length( v ); }
#else
	float precisionSafeLength( vec3 v ) {
		float maxComponent = max3( abs( v ) );
		return length( v / maxComponent ) * maxComponent;
	}
#endif
struct IncidentLight {
	vec3 color;
	vec3 direction;
	bool visible;
};
struct ReflectedLight {
	vec3 directDiffuse;
	vec3 directSpecular;
	vec3 indirectDiffuse;
	vec3 indirectSpecular;
};
#ifdef USE_ALPHAHASH
	varying vec3 vPosition;
#endif
vec3 transformDirection( in vec3 dir, in mat4 matrix ) {
	return normalize( ( matrix * vec4( dir, 0.0 ) ).xyz );
}
#define inverseTransformDirection transformDirectionByInverseViewMatrix
vec3 transformNormalByInverseViewMatrix( in vec3 normal, in mat4 viewMatrix ) {
	return normalize( ( vec4( normal, 0.0 ) * viewMatrix ).xyz );
}
vec3 transformDirectionByInverseViewMatrix( in vec3 dir, in mat4 viewMatrix ) {
	return normalize( ( vec4( dir, 0.0 ) * viewMatrix ).xyz );
}
bool isPerspectiveMatrix( mat4 m ) {
	return m[ 2 ][ 3 ] == - 1.0;
}
vec2 equirectUv( in vec3 dir ) {
	float u = atan( dir.z, dir.x ) * RECIPROCAL_PI2 + 0.5;
	float v = asin( clamp( dir.y, - 1.0, 1.0 ) ) * RECIPROCAL_PI + 0.5;
	return vec2( u, v );
}
vec3 BRDF_Lambert( const in vec3 diffuseColor ) {
	return RECIPROCAL_PI * diffuseColor;
}
vec3 F_Schlick( const in vec3 f0, const in float f90, const in float dotVH ) {
	float fresnel = exp2( ( - 5.55473 * dotVH - 6.98316 ) * dotVH );
	return f0 * ( 1.0 - fresnel ) + ( f90 * fresnel );
}
float F_Schlick( const in float f0, const in float f90, const in float dotVH ) {
	float fresnel = exp2( ( - 5.55473 * dotVH - 6.98316 ) * dotVH );
	return f0 * ( 1.0 - fresnel ) + ( f90 * fresnel );
} // validated`,defaultnormal_vertex:`vec3 transformedNormal = objectNormal;
#ifdef USE_TANGENT
	vec3 transformedTangent = objectTangent;
#endif
#ifdef USE_BATCHING
	mat3 bm = mat3( batchingMatrix );
	transformedNormal /= vec3( dot( bm[ 0 ], bm[ 0 ] ), dot( bm[ 1 ], bm[ 1 ] ), dot( bm[ 2 ], bm[ 2 ] ) );
	transformedNormal = bm * transformedNormal;
	#ifdef USE_TANGENT
		transformedTangent = bm * transformedTangent;
	#endif
#endif
#ifdef USE_INSTANCING
	mat3 im = mat3( instanceMatrix );
	transformedNormal /= vec3( dot( im[ 0 ], im[ 0 ] ), dot( im[ 1 ], im[ 1 ] ), dot( im[ 2 ], im[ 2 ] ) );
	transformedNormal = im * transformedNormal;
	#ifdef USE_TANGENT
		transformedTangent = im * transformedTangent;
	#endif
#endif
transformedNormal = normalMatrix * transformedNormal;
#ifdef FLIP_SIDED
	transformedNormal = - transformedNormal;
#endif
#ifdef USE_TANGENT
	transformedTangent = ( modelViewMatrix * vec4( transformedTangent, 0.0 ) ).xyz;
#endif`,displacementmap_pars_vertex:`#ifdef USE_DISPLACEMENTMAP
	uniform sampler2D displacementMap;
	uniform float displacementScale;
	uniform float displacementBias;
#endif`,displacementmap_vertex:`#ifdef USE_DISPLACEMENTMAP
	transformed += normalize( objectNormal ) * ( texture2D( displacementMap, vDisplacementMapUv ).x * displacementScale + displacementBias );
#endif`,emissivemap_fragment:`#ifdef USE_EMISSIVEMAP
	vec4 emissiveColor = texture2D( emissiveMap, vEmissiveMapUv );
	#ifdef DECODE_VIDEO_TEXTURE_EMISSIVE
		emissiveColor = sRGBTransferEOTF( emissiveColor );
	#endif
	totalEmissiveRadiance *= emissiveColor.rgb;
#endif`,emissivemap_pars_fragment:`#ifdef USE_EMISSIVEMAP
	uniform sampler2D emissiveMap;
#endif`,colorspace_fragment:`gl_FragColor = linearToOutputTexel( gl_FragColor );`,colorspace_pars_fragment:`vec4 LinearTransferOETF( in vec4 value ) {
	return value;
}
vec4 sRGBTransferEOTF( in vec4 value ) {
	return vec4( mix( pow( value.rgb * 0.9478672986 + vec3( 0.0521327014 ), vec3( 2.4 ) ), value.rgb * 0.0773993808, vec3( lessThanEqual( value.rgb, vec3( 0.04045 ) ) ) ), value.a );
}
vec4 sRGBTransferOETF( in vec4 value ) {
	return vec4( mix( pow( value.rgb, vec3( 0.41666 ) ) * 1.055 - vec3( 0.055 ), value.rgb * 12.92, vec3( lessThanEqual( value.rgb, vec3( 0.0031308 ) ) ) ), value.a );
}`,envmap_fragment:`#ifdef USE_ENVMAP
	#ifdef ENV_WORLDPOS
		vec3 cameraToFrag;
		if ( isOrthographic ) {
			cameraToFrag = normalize( vec3( - viewMatrix[ 0 ][ 2 ], - viewMatrix[ 1 ][ 2 ], - viewMatrix[ 2 ][ 2 ] ) );
		} else {
			cameraToFrag = normalize( vWorldPosition - cameraPosition );
		}
		vec3 worldNormal = transformNormalByInverseViewMatrix( normal, viewMatrix );
		#ifdef ENVMAP_MODE_REFLECTION
			vec3 reflectVec = reflect( cameraToFrag, worldNormal );
		#else
			vec3 reflectVec = refract( cameraToFrag, worldNormal, refractionRatio );
		#endif
	#else
		vec3 reflectVec = vReflect;
	#endif
	#ifdef ENVMAP_TYPE_CUBE
		vec4 envColor = textureCube( envMap, envMapRotation * reflectVec );
		#ifdef ENVMAP_BLENDING_MULTIPLY
			outgoingLight = mix( outgoingLight, outgoingLight * envColor.xyz, specularStrength * reflectivity );
		#elif defined( ENVMAP_BLENDING_MIX )
			outgoingLight = mix( outgoingLight, envColor.xyz, specularStrength * reflectivity );
		#elif defined( ENVMAP_BLENDING_ADD )
			outgoingLight += envColor.xyz * specularStrength * reflectivity;
		#endif
	#endif
#endif`,envmap_common_pars_fragment:`#ifdef USE_ENVMAP
	uniform float envMapIntensity;
	uniform mat3 envMapRotation;
	uniform samplerCube envMap;
	#ifdef ENVMAP_TYPE_PMREM
		float roughnessToMip( const in float roughness ) {
			float r = clamp( roughness, 0.0, 1.0 );
			return ENVMAP_MAX_LOD * r * ( 2.0 - r );
		}
	#endif
#endif`,envmap_pars_fragment:`#ifdef USE_ENVMAP
	uniform float reflectivity;
	#if defined( USE_BUMPMAP ) || defined( USE_NORMALMAP ) || defined( PHONG ) || defined( LAMBERT )
		#define ENV_WORLDPOS
	#endif
	#ifdef ENV_WORLDPOS
		varying vec3 vWorldPosition;
		uniform float refractionRatio;
	#else
		varying vec3 vReflect;
	#endif
#endif`,envmap_pars_vertex:`#ifdef USE_ENVMAP
	#if defined( USE_BUMPMAP ) || defined( USE_NORMALMAP ) || defined( PHONG ) || defined( LAMBERT )
		#define ENV_WORLDPOS
	#endif
	#ifdef ENV_WORLDPOS
		
		varying vec3 vWorldPosition;
	#else
		varying vec3 vReflect;
		uniform float refractionRatio;
	#endif
#endif`,envmap_physical_pars_fragment:`#ifdef USE_ENVMAP
	vec3 getIBLIrradiance( const in vec3 normal ) {
		#ifdef ENVMAP_TYPE_PMREM
			vec3 worldNormal = transformNormalByInverseViewMatrix( normal, viewMatrix );
			vec4 envMapColor = textureLod( envMap, envMapRotation * worldNormal, ENVMAP_MAX_LOD );
			return PI * envMapColor.rgb * envMapIntensity;
		#else
			return vec3( 0.0 );
		#endif
	}
	vec3 getIBLRadiance( const in vec3 viewDir, const in vec3 normal, const in float roughness ) {
		#ifdef ENVMAP_TYPE_PMREM
			vec3 reflectVec = reflect( - viewDir, normal );
			reflectVec = normalize( mix( reflectVec, normal, pow4( roughness ) ) );
			reflectVec = transformDirectionByInverseViewMatrix( reflectVec, viewMatrix );
			vec4 envMapColor = textureLod( envMap, envMapRotation * reflectVec, roughnessToMip( roughness ) );
			return envMapColor.rgb * envMapIntensity;
		#else
			return vec3( 0.0 );
		#endif
	}
	#ifdef USE_RETROREFLECTION
		vec3 getIBLRetroRadiance( const in vec3 viewDir, const in vec3 normal, const in float roughness ) {
			#ifdef ENVMAP_TYPE_PMREM
				vec3 retroVec = normalize( mix( viewDir, normal, pow4( roughness ) ) );
				retroVec = transformDirectionByInverseViewMatrix( retroVec, viewMatrix );
				vec4 envMapColor = textureLod( envMap, envMapRotation * retroVec, roughnessToMip( roughness ) );
				return envMapColor.rgb * envMapIntensity;
			#else
				return vec3( 0.0 );
			#endif
		}
	#endif
	#ifdef USE_ANISOTROPY
		vec3 getIBLAnisotropyRadiance( const in vec3 viewDir, const in vec3 normal, const in float roughness, const in vec3 bitangent, const in float anisotropy ) {
			#ifdef ENVMAP_TYPE_PMREM
				vec3 bentNormal = cross( bitangent, viewDir );
				bentNormal = normalize( cross( bentNormal, bitangent ) );
				bentNormal = normalize( mix( bentNormal, normal, pow2( pow2( 1.0 - anisotropy * ( 1.0 - roughness ) ) ) ) );
				return getIBLRadiance( viewDir, bentNormal, roughness );
			#else
				return vec3( 0.0 );
			#endif
		}
		#ifdef USE_RETROREFLECTION
			vec3 getIBLAnisotropyRetroRadiance( const in vec3 viewDir, const in vec3 normal, const in float roughness, const in vec3 bitangent, const in float anisotropy ) {
				#ifdef ENVMAP_TYPE_PMREM
					vec3 bentNormal = cross( bitangent, viewDir );
					bentNormal = normalize( cross( bentNormal, bitangent ) );
					bentNormal = normalize( mix( bentNormal, normal, pow2( pow2( 1.0 - anisotropy * ( 1.0 - roughness ) ) ) ) );
					return getIBLRetroRadiance( viewDir, bentNormal, roughness );
				#else
					return vec3( 0.0 );
				#endif
			}
		#endif
	#endif
#endif`,envmap_vertex:`#ifdef USE_ENVMAP
	#ifdef ENV_WORLDPOS
		vWorldPosition = worldPosition.xyz;
	#else
		vec3 cameraToVertex;
		if ( isOrthographic ) {
			cameraToVertex = normalize( vec3( - viewMatrix[ 0 ][ 2 ], - viewMatrix[ 1 ][ 2 ], - viewMatrix[ 2 ][ 2 ] ) );
		} else {
			cameraToVertex = normalize( worldPosition.xyz - cameraPosition );
		}
		vec3 worldNormal = transformNormalByInverseViewMatrix( transformedNormal, viewMatrix );
		#ifdef ENVMAP_MODE_REFLECTION
			vReflect = reflect( cameraToVertex, worldNormal );
		#else
			vReflect = refract( cameraToVertex, worldNormal, refractionRatio );
		#endif
	#endif
#endif`,fog_vertex:`#ifdef USE_FOG
	vFogDepth = - mvPosition.z;
#endif`,fog_pars_vertex:`#ifdef USE_FOG
	varying float vFogDepth;
#endif`,fog_fragment:`#ifdef USE_FOG
	#ifdef FOG_EXP2
		float fogFactor = 1.0 - exp( - fogDensity * fogDensity * vFogDepth * vFogDepth );
	#else
		float fogFactor = smoothstep( fogNear, fogFar, vFogDepth );
	#endif
	gl_FragColor.rgb = mix( gl_FragColor.rgb, fogColor, fogFactor );
#endif`,fog_pars_fragment:`#ifdef USE_FOG
	uniform vec3 fogColor;
	varying float vFogDepth;
	#ifdef FOG_EXP2
		uniform float fogDensity;
	#else
		uniform float fogNear;
		uniform float fogFar;
	#endif
#endif`,gradientmap_pars_fragment:`#ifdef USE_GRADIENTMAP
	uniform sampler2D gradientMap;
#endif
vec3 getGradientIrradiance( vec3 normal, vec3 lightDirection ) {
	float dotNL = dot( normal, lightDirection );
	vec2 coord = vec2( dotNL * 0.5 + 0.5, 0.0 );
	#ifdef USE_GRADIENTMAP
		return vec3( texture2D( gradientMap, coord ).r );
	#else
		vec2 fw = fwidth( coord ) * 0.5;
		return mix( vec3( 0.7 ), vec3( 1.0 ), smoothstep( 0.7 - fw.x, 0.7 + fw.x, coord.x ) );
	#endif
}`,lightmap_pars_fragment:`#ifdef USE_LIGHTMAP
	uniform sampler2D lightMap;
	uniform float lightMapIntensity;
#endif`,lights_lambert_fragment:`LambertMaterial material;
material.diffuseColor = diffuseColor.rgb;
material.specularStrength = specularStrength;`,lights_lambert_pars_fragment:`varying vec3 vViewPosition;
struct LambertMaterial {
	vec3 diffuseColor;
	float specularStrength;
};
void RE_Direct_Lambert( const in IncidentLight directLight, const in vec3 geometryPosition, const in vec3 geometryNormal, const in vec3 geometryViewDir, const in vec3 geometryClearcoatNormal, const in LambertMaterial material, inout ReflectedLight reflectedLight ) {
	float dotNL = saturate( dot( geometryNormal, directLight.direction ) );
	vec3 irradiance = dotNL * directLight.color;
	reflectedLight.directDiffuse += irradiance * BRDF_Lambert( material.diffuseColor );
}
void RE_IndirectDiffuse_Lambert( const in vec3 irradiance, const in vec3 geometryPosition, const in vec3 geometryNormal, const in vec3 geometryViewDir, const in vec3 geometryClearcoatNormal, const in LambertMaterial material, inout ReflectedLight reflectedLight ) {
	reflectedLight.indirectDiffuse += irradiance * BRDF_Lambert( material.diffuseColor );
}
#define RE_Direct				RE_Direct_Lambert
#define RE_IndirectDiffuse		RE_IndirectDiffuse_Lambert`,lights_pars_begin:`uniform bool receiveShadow;
uniform vec3 ambientLightColor;
#if defined( USE_LIGHT_PROBES )
	uniform vec3 lightProbe[ 9 ];
#endif
vec3 shGetIrradianceAt( in vec3 normal, in vec3 shCoefficients[ 9 ] ) {
	float x = normal.x, y = normal.y, z = normal.z;
	vec3 result = shCoefficients[ 0 ] * 0.886227;
	result += shCoefficients[ 1 ] * 2.0 * 0.511664 * y;
	result += shCoefficients[ 2 ] * 2.0 * 0.511664 * z;
	result += shCoefficients[ 3 ] * 2.0 * 0.511664 * x;
	result += shCoefficients[ 4 ] * 2.0 * 0.429043 * x * y;
	result += shCoefficients[ 5 ] * 2.0 * 0.429043 * y * z;
	result += shCoefficients[ 6 ] * ( 0.743125 * z * z - 0.247708 );
	result += shCoefficients[ 7 ] * 2.0 * 0.429043 * x * z;
	result += shCoefficients[ 8 ] * 0.429043 * ( x * x - y * y );
	return result;
}
vec3 getLightProbeIrradiance( const in vec3 lightProbe[ 9 ], const in vec3 normal ) {
	vec3 worldNormal = transformNormalByInverseViewMatrix( normal, viewMatrix );
	vec3 irradiance = shGetIrradianceAt( worldNormal, lightProbe );
	return irradiance;
}
vec3 getAmbientLightIrradiance( const in vec3 ambientLightColor ) {
	vec3 irradiance = ambientLightColor;
	return irradiance;
}
float getDistanceAttenuation( const in float lightDistance, const in float cutoffDistance, const in float decayExponent ) {
	float distanceFalloff = 1.0 / max( pow( lightDistance, decayExponent ), 0.01 );
	if ( cutoffDistance > 0.0 ) {
		distanceFalloff *= pow2( saturate( 1.0 - pow4( lightDistance / cutoffDistance ) ) );
	}
	return distanceFalloff;
}
float getSpotAttenuation( const in float coneCosine, const in float penumbraCosine, const in float angleCosine ) {
	return smoothstep( coneCosine, penumbraCosine, angleCosine );
}
#if NUM_SUN_LIGHTS > 0
	struct SunLight {
		vec3 direction;
		vec3 color;
	};
	uniform SunLight sunLights[ NUM_SUN_LIGHTS ];
	void getSunLightInfo( const in SunLight sunLight, out IncidentLight light ) {
		light.color = sunLight.color;
		light.direction = sunLight.direction;
		light.visible = true;
	}
#endif
#if NUM_DIR_LIGHTS > 0
	struct DirectionalLight {
		vec3 direction;
		vec3 color;
	};
	uniform DirectionalLight directionalLights[ NUM_DIR_LIGHTS ];
	void getDirectionalLightInfo( const in DirectionalLight directionalLight, out IncidentLight light ) {
		light.color = directionalLight.color;
		light.direction = directionalLight.direction;
		light.visible = true;
	}
#endif
#if NUM_POINT_LIGHTS > 0
	struct PointLight {
		vec3 position;
		vec3 color;
		float distance;
		float decay;
	};
	uniform PointLight pointLights[ NUM_POINT_LIGHTS ];
	void getPointLightInfo( const in PointLight pointLight, const in vec3 geometryPosition, out IncidentLight light ) {
		vec3 lVector = pointLight.position - geometryPosition;
		light.direction = normalize( lVector );
		float lightDistance = length( lVector );
		light.color = pointLight.color;
		light.color *= getDistanceAttenuation( lightDistance, pointLight.distance, pointLight.decay );
		light.visible = ( light.color != vec3( 0.0 ) );
	}
#endif
#if NUM_SPOT_LIGHTS > 0
	struct SpotLight {
		vec3 position;
		vec3 direction;
		vec3 color;
		float distance;
		float decay;
		float coneCos;
		float penumbraCos;
	};
	uniform SpotLight spotLights[ NUM_SPOT_LIGHTS ];
	void getSpotLightInfo( const in SpotLight spotLight, const in vec3 geometryPosition, out IncidentLight light ) {
		vec3 lVector = spotLight.position - geometryPosition;
		light.direction = normalize( lVector );
		float angleCos = dot( light.direction, spotLight.direction );
		float spotAttenuation = getSpotAttenuation( spotLight.coneCos, spotLight.penumbraCos, angleCos );
		if ( spotAttenuation > 0.0 ) {
			float lightDistance = length( lVector );
			light.color = spotLight.color * spotAttenuation;
			light.color *= getDistanceAttenuation( lightDistance, spotLight.distance, spotLight.decay );
			light.visible = ( light.color != vec3( 0.0 ) );
		} else {
			light.color = vec3( 0.0 );
			light.visible = false;
		}
	}
#endif
#if NUM_RECT_AREA_LIGHTS > 0
	struct RectAreaLight {
		vec3 color;
		vec3 position;
		vec3 halfWidth;
		vec3 halfHeight;
	};
	uniform sampler2D ltc_1;	uniform sampler2D ltc_2;
	uniform RectAreaLight rectAreaLights[ NUM_RECT_AREA_LIGHTS ];
#endif
#if NUM_HEMI_LIGHTS > 0
	struct HemisphereLight {
		vec3 direction;
		vec3 skyColor;
		vec3 groundColor;
	};
	uniform HemisphereLight hemisphereLights[ NUM_HEMI_LIGHTS ];
	vec3 getHemisphereLightIrradiance( const in HemisphereLight hemiLight, const in vec3 normal ) {
		float dotNL = dot( normal, hemiLight.direction );
		float hemiDiffuseWeight = 0.5 * dotNL + 0.5;
		vec3 irradiance = mix( hemiLight.groundColor, hemiLight.skyColor, hemiDiffuseWeight );
		return irradiance;
	}
#endif
#include <lightprobes_pars_fragment>`,lights_toon_fragment:`ToonMaterial material;
material.diffuseColor = diffuseColor.rgb;`,lights_toon_pars_fragment:`varying vec3 vViewPosition;
struct ToonMaterial {
	vec3 diffuseColor;
};
void RE_Direct_Toon( const in IncidentLight directLight, const in vec3 geometryPosition, const in vec3 geometryNormal, const in vec3 geometryViewDir, const in vec3 geometryClearcoatNormal, const in ToonMaterial material, inout ReflectedLight reflectedLight ) {
	vec3 irradiance = getGradientIrradiance( geometryNormal, directLight.direction ) * directLight.color;
	reflectedLight.directDiffuse += irradiance * BRDF_Lambert( material.diffuseColor );
}
void RE_IndirectDiffuse_Toon( const in vec3 irradiance, const in vec3 geometryPosition, const in vec3 geometryNormal, const in vec3 geometryViewDir, const in vec3 geometryClearcoatNormal, const in ToonMaterial material, inout ReflectedLight reflectedLight ) {
	reflectedLight.indirectDiffuse += irradiance * BRDF_Lambert( material.diffuseColor );
}
#define RE_Direct				RE_Direct_Toon
#define RE_IndirectDiffuse		RE_IndirectDiffuse_Toon`,lights_phong_fragment:`BlinnPhongMaterial material;
material.diffuseColor = diffuseColor.rgb;
material.specularColor = specular;
material.specularShininess = shininess;
material.specularStrength = specularStrength;`,lights_phong_pars_fragment:`varying vec3 vViewPosition;
struct BlinnPhongMaterial {
	vec3 diffuseColor;
	vec3 specularColor;
	float specularShininess;
	float specularStrength;
};
void RE_Direct_BlinnPhong( const in IncidentLight directLight, const in vec3 geometryPosition, const in vec3 geometryNormal, const in vec3 geometryViewDir, const in vec3 geometryClearcoatNormal, const in BlinnPhongMaterial material, inout ReflectedLight reflectedLight ) {
	float dotNL = saturate( dot( geometryNormal, directLight.direction ) );
	vec3 irradiance = dotNL * directLight.color;
	reflectedLight.directDiffuse += irradiance * BRDF_Lambert( material.diffuseColor );
	reflectedLight.directSpecular += irradiance * BRDF_BlinnPhong( directLight.direction, geometryViewDir, geometryNormal, material.specularColor, material.specularShininess ) * material.specularStrength;
}
void RE_IndirectDiffuse_BlinnPhong( const in vec3 irradiance, const in vec3 geometryPosition, const in vec3 geometryNormal, const in vec3 geometryViewDir, const in vec3 geometryClearcoatNormal, const in BlinnPhongMaterial material, inout ReflectedLight reflectedLight ) {
	reflectedLight.indirectDiffuse += irradiance * BRDF_Lambert( material.diffuseColor );
}
#define RE_Direct				RE_Direct_BlinnPhong
#define RE_IndirectDiffuse		RE_IndirectDiffuse_BlinnPhong`,lights_physical_fragment:`PhysicalMaterial material;
material.diffuseColor = diffuseColor.rgb;
material.diffuseContribution = diffuseColor.rgb * ( 1.0 - metalnessFactor );
material.metalness = metalnessFactor;
vec3 dxy = max( abs( dFdx( nonPerturbedNormal ) ), abs( dFdy( nonPerturbedNormal ) ) );
float geometryRoughness = max( max( dxy.x, dxy.y ), dxy.z );
material.roughness = max( roughnessFactor, 0.045 );
material.roughness += geometryRoughness;
material.roughness = min( material.roughness, 1.0 );
#ifdef USE_DIFFUSE_ROUGHNESS
	float diffuseRoughnessFactor = diffuseRoughness;
	#ifdef USE_DIFFUSE_ROUGHNESSMAP
		diffuseRoughnessFactor *= texture2D( diffuseRoughnessMap, vDiffuseRoughnessMapUv ).r;
	#endif
	material.diffuseRoughness = saturate( diffuseRoughnessFactor );
#endif
#ifdef IOR
	material.ior = ior;
	#ifdef USE_SPECULAR
		float specularIntensityFactor = specularIntensity;
		vec3 specularColorFactor = specularColor;
		#ifdef USE_SPECULAR_COLORMAP
			specularColorFactor *= texture2D( specularColorMap, vSpecularColorMapUv ).rgb;
		#endif
		#ifdef USE_SPECULAR_INTENSITYMAP
			specularIntensityFactor *= texture2D( specularIntensityMap, vSpecularIntensityMapUv ).a;
		#endif
		material.specularF90 = mix( specularIntensityFactor, 1.0, metalnessFactor );
	#else
		float specularIntensityFactor = 1.0;
		vec3 specularColorFactor = vec3( 1.0 );
		material.specularF90 = 1.0;
	#endif
	material.specularColor = min( pow2( ( material.ior - 1.0 ) / ( material.ior + 1.0 ) ) * specularColorFactor, vec3( 1.0 ) ) * specularIntensityFactor;
	material.specularColorBlended = mix( material.specularColor, diffuseColor.rgb, metalnessFactor );
#else
	material.specularColor = vec3( 0.04 );
	material.specularColorBlended = mix( material.specularColor, diffuseColor.rgb, metalnessFactor );
	material.specularF90 = 1.0;
#endif
#ifdef USE_CLEARCOAT
	material.clearcoat = clearcoat;
	material.clearcoatRoughness = clearcoatRoughness;
	material.clearcoatF0 = vec3( 0.04 );
	material.clearcoatF90 = 1.0;
	#ifdef USE_CLEARCOATMAP
		material.clearcoat *= texture2D( clearcoatMap, vClearcoatMapUv ).x;
	#endif
	#ifdef USE_CLEARCOAT_ROUGHNESSMAP
		material.clearcoatRoughness *= texture2D( clearcoatRoughnessMap, vClearcoatRoughnessMapUv ).y;
	#endif
	material.clearcoat = saturate( material.clearcoat );	material.clearcoatRoughness = max( material.clearcoatRoughness, 0.045 );
	material.clearcoatRoughness += geometryRoughness;
	material.clearcoatRoughness = min( material.clearcoatRoughness, 1.0 );
#endif
#ifdef USE_DISPERSION
	material.dispersion = dispersion;
#endif
#ifdef USE_RETROREFLECTION
	material.retroreflectivity = retroreflectivity;
#endif
#ifdef USE_IRIDESCENCE
	material.iridescence = iridescence;
	material.iridescenceIOR = iridescenceIOR;
	#ifdef USE_IRIDESCENCEMAP
		material.iridescence *= texture2D( iridescenceMap, vIridescenceMapUv ).r;
	#endif
	#ifdef USE_IRIDESCENCE_THICKNESSMAP
		material.iridescenceThickness = (iridescenceThicknessMaximum - iridescenceThicknessMinimum) * texture2D( iridescenceThicknessMap, vIridescenceThicknessMapUv ).g + iridescenceThicknessMinimum;
	#else
		material.iridescenceThickness = iridescenceThicknessMaximum;
	#endif
#endif
#ifdef USE_SHEEN
	material.sheenColor = sheenColor;
	#ifdef USE_SHEEN_COLORMAP
		material.sheenColor *= texture2D( sheenColorMap, vSheenColorMapUv ).rgb;
	#endif
	material.sheenRoughness = clamp( sheenRoughness, 0.0001, 1.0 );
	#ifdef USE_SHEEN_ROUGHNESSMAP
		material.sheenRoughness *= texture2D( sheenRoughnessMap, vSheenRoughnessMapUv ).a;
	#endif
#endif
#ifdef USE_ANISOTROPY
	#ifdef USE_ANISOTROPYMAP
		mat2 anisotropyMat = mat2( anisotropyVector.x, anisotropyVector.y, - anisotropyVector.y, anisotropyVector.x );
		vec3 anisotropyPolar = texture2D( anisotropyMap, vAnisotropyMapUv ).rgb;
		vec2 anisotropyV = anisotropyMat * normalize( 2.0 * anisotropyPolar.rg - vec2( 1.0 ) ) * anisotropyPolar.b;
	#else
		vec2 anisotropyV = anisotropyVector;
	#endif
	material.anisotropy = length( anisotropyV );
	if( material.anisotropy == 0.0 ) {
		anisotropyV = vec2( 1.0, 0.0 );
	} else {
		anisotropyV /= material.anisotropy;
		material.anisotropy = saturate( material.anisotropy );
	}
	material.alphaT = mix( pow2( material.roughness ), 1.0, pow2( material.anisotropy ) );
	material.anisotropyT = tbn[ 0 ] * anisotropyV.x + tbn[ 1 ] * anisotropyV.y;
	material.anisotropyB = tbn[ 1 ] * anisotropyV.x - tbn[ 0 ] * anisotropyV.y;
#endif`,lights_physical_pars_fragment:`uniform sampler2D dfgLUT;
struct PhysicalMaterial {
	vec3 diffuseColor;
	vec3 diffuseContribution;
	vec3 specularColor;
	vec3 specularColorBlended;
	float roughness;
	float metalness;
	float specularF90;
	float dispersion;
	vec2 dfg;
	vec3 multiScatteringCompensation;
	#ifdef USE_DIFFUSE_ROUGHNESS
		float diffuseRoughness;
	#endif
	#ifdef USE_RETROREFLECTION
		float retroreflectivity;
	#endif
	#ifdef USE_CLEARCOAT
		float clearcoat;
		float clearcoatRoughness;
		vec3 clearcoatF0;
		float clearcoatF90;
	#endif
	#ifdef USE_IRIDESCENCE
		float iridescence;
		float iridescenceIOR;
		float iridescenceThickness;
		vec3 iridescenceFresnel;
		vec3 iridescenceF0Dielectric;
		vec3 iridescenceF0Metallic;
	#endif
	#ifdef USE_SHEEN
		vec3 sheenColor;
		float sheenRoughness;
	#endif
	#ifdef IOR
		float ior;
	#endif
	#ifdef USE_TRANSMISSION
		float transmission;
		float transmissionAlpha;
		float thickness;
		float attenuationDistance;
		vec3 attenuationColor;
	#endif
	#ifdef USE_ANISOTROPY
		float anisotropy;
		float alphaT;
		vec3 anisotropyT;
		vec3 anisotropyB;
	#endif
};
vec3 clearcoatSpecularDirect = vec3( 0.0 );
vec3 clearcoatSpecularIndirect = vec3( 0.0 );
vec3 sheenSpecularDirect = vec3( 0.0 );
vec3 sheenSpecularIndirect = vec3(0.0 );
vec3 Schlick_to_F0( const in vec3 f, const in float f90, const in float dotVH ) {
    float x = clamp( 1.0 - dotVH, 0.0, 1.0 );
    float x2 = x * x;
    float x5 = clamp( x * x2 * x2, 0.0, 0.9999 );
    return ( f - vec3( f90 ) * x5 ) / ( 1.0 - x5 );
}
#ifdef USE_DIFFUSE_ROUGHNESS
	const float EON_EPSILON = 1e-7;
	float FON_DirectionalAlbedo( const in float mu, const in float roughness, const in float A ) {
		float muComp = 1.0 - mu;
		float gOverPi = muComp * ( 0.0571085289 + muComp * ( 0.491881867 + muComp * ( - 0.332181442 + muComp * 0.0714429953 ) ) );
		return A * ( 1.0 + roughness * gOverPi );
	}
	vec3 BRDF_EON( const in vec3 lightDir, const in vec3 viewDir, const in vec3 normal, const in vec3 diffuseColor, const in float roughness ) {
		vec3 rho = saturate( diffuseColor );
		if ( roughness <= EON_EPSILON ) return BRDF_Lambert( rho );
		float dotNL = saturate( dot( normal, lightDir ) );
		float dotNV = saturate( dot( normal, viewDir ) );
		float s = dot( lightDir, viewDir ) - dotNL * dotNV;
		float sOverT = ( s > 0.0 ) ? s / max( max( dotNL, dotNV ), EON_EPSILON ) : s;
		float A = 1.0 / ( 1.0 + ( 0.5 - 2.0 / ( 3.0 * PI ) ) * roughness );
		vec3 singleScatter = rho * RECIPROCAL_PI * A * ( 1.0 + roughness * sOverT );
		float averageAlbedo = A * ( 1.0 + ( 2.0 / 3.0 - 28.0 / ( 15.0 * PI ) ) * roughness );
		float albedoV = FON_DirectionalAlbedo( dotNV, roughness, A );
		float albedoL = FON_DirectionalAlbedo( dotNL, roughness, A );
		vec3 rhoMultiScatter = rho * rho * averageAlbedo / max( vec3( EON_EPSILON ), vec3( 1.0 ) - rho * ( 1.0 - averageAlbedo ) );
		vec3 multiScatter = rhoMultiScatter * RECIPROCAL_PI
			* max( EON_EPSILON, 1.0 - albedoV )
			* max( EON_EPSILON, 1.0 - albedoL )
			/ max( EON_EPSILON, 1.0 - averageAlbedo );
		return singleScatter + multiScatter;
	}
	vec3 EON_DirectionalAlbedo( const in vec3 diffuseColor, const in float roughness, const in float dotNV ) {
		vec3 rho = saturate( diffuseColor );
		if ( roughness <= EON_EPSILON ) return rho;
		float A = 1.0 / ( 1.0 + ( 0.5 - 2.0 / ( 3.0 * PI ) ) * roughness );
		float directionalAlbedo = FON_DirectionalAlbedo( dotNV, roughness, A );
		float averageAlbedo = A * ( 1.0 + ( 2.0 / 3.0 - 28.0 / ( 15.0 * PI ) ) * roughness );
		vec3 rhoMultiScatter = rho * rho * averageAlbedo / max( vec3( EON_EPSILON ), vec3( 1.0 ) - rho * ( 1.0 - averageAlbedo ) );
		return rho * directionalAlbedo + rhoMultiScatter * ( 1.0 - directionalAlbedo );
	}
#endif
float V_GGX_SmithCorrelated( const in float alpha, const in float dotNL, const in float dotNV ) {
	float a2 = pow2( alpha );
	float gv = dotNL * sqrt( a2 + ( 1.0 - a2 ) * pow2( dotNV ) );
	float gl = dotNV * sqrt( a2 + ( 1.0 - a2 ) * pow2( dotNL ) );
	return 0.5 / max( gv + gl, EPSILON );
}
float D_GGX( const in float alpha, const in float dotNH ) {
	float a2 = pow2( alpha );
	float denom = pow2( dotNH ) * ( a2 - 1.0 ) + 1.0;
	return RECIPROCAL_PI * a2 / pow2( denom );
}
#ifdef USE_ANISOTROPY
	float V_GGX_SmithCorrelated_Anisotropic( const in float alphaT, const in float alphaB, const in float dotTV, const in float dotBV, const in float dotTL, const in float dotBL, const in float dotNV, const in float dotNL ) {
		float gv = dotNL * length( vec3( alphaT * dotTV, alphaB * dotBV, dotNV ) );
		float gl = dotNV * length( vec3( alphaT * dotTL, alphaB * dotBL, dotNL ) );
		return 0.5 / max( gv + gl, EPSILON );
	}
	float D_GGX_Anisotropic( const in float alphaT, const in float alphaB, const in float dotNH, const in float dotTH, const in float dotBH ) {
		float a2 = alphaT * alphaB;
		highp vec3 v = vec3( alphaB * dotTH, alphaT * dotBH, a2 * dotNH );
		highp float v2 = dot( v, v );
		float w2 = a2 / v2;
		return RECIPROCAL_PI * a2 * pow2 ( w2 );
	}
#endif
#ifdef USE_CLEARCOAT
	vec3 BRDF_GGX_Clearcoat( const in vec3 lightDir, const in vec3 viewDir, const in vec3 normal, const in PhysicalMaterial material) {
		vec3 f0 = material.clearcoatF0;
		float f90 = material.clearcoatF90;
		float roughness = max( material.clearcoatRoughness, 0.045 );
		float alpha = pow2( roughness );
		vec3 halfDir = normalize( lightDir + viewDir );
		float dotNL = saturate( dot( normal, lightDir ) );
		float dotNV = saturate( dot( normal, viewDir ) );
		float dotNH = saturate( dot( normal, halfDir ) );
		float dotVH = saturate( dot( viewDir, halfDir ) );
		vec3 F = F_Schlick( f0, f90, dotVH );
		float V = V_GGX_SmithCorrelated( alpha, dotNL, dotNV );
		float D = D_GGX( alpha, dotNH );
		return F * ( V * D );
	}
#endif
vec3 BRDF_GGX( const in vec3 lightDir, const in vec3 viewDir, const in vec3 normal, const in PhysicalMaterial material ) {
	vec3 f0 = material.specularColorBlended;
	float f90 = material.specularF90;
	float roughness = max( material.roughness, 0.045 );
	float alpha = pow2( roughness );
	vec3 halfDir = normalize( lightDir + viewDir );
	float dotNL = saturate( dot( normal, lightDir ) );
	float dotNV = saturate( dot( normal, viewDir ) );
	float dotNH = saturate( dot( normal, halfDir ) );
	float dotVH = saturate( dot( viewDir, halfDir ) );
	vec3 F = F_Schlick( f0, f90, dotVH );
	#ifdef USE_IRIDESCENCE
		F = mix( F, material.iridescenceFresnel, material.iridescence );
	#endif
	#ifdef USE_ANISOTROPY
		float dotTL = dot( material.anisotropyT, lightDir );
		float dotTV = dot( material.anisotropyT, viewDir );
		float dotTH = dot( material.anisotropyT, halfDir );
		float dotBL = dot( material.anisotropyB, lightDir );
		float dotBV = dot( material.anisotropyB, viewDir );
		float dotBH = dot( material.anisotropyB, halfDir );
		float alphaT = max( material.alphaT, alpha );
		float V = V_GGX_SmithCorrelated_Anisotropic( alphaT, alpha, dotTV, dotBV, dotTL, dotBL, dotNV, dotNL );
		float D = D_GGX_Anisotropic( alphaT, alpha, dotNH, dotTH, dotBH );
	#else
		float V = V_GGX_SmithCorrelated( alpha, dotNL, dotNV );
		float D = D_GGX( alpha, dotNH );
	#endif
	return F * ( V * D );
}
vec2 LTC_Uv( const in vec3 N, const in vec3 V, const in float roughness ) {
	const float LUT_SIZE = 64.0;
	const float LUT_SCALE = ( LUT_SIZE - 1.0 ) / LUT_SIZE;
	const float LUT_BIAS = 0.5 / LUT_SIZE;
	float dotNV = saturate( dot( N, V ) );
	vec2 uv = vec2( roughness, sqrt( 1.0 - dotNV ) );
	uv = uv * LUT_SCALE + LUT_BIAS;
	return uv;
}
float LTC_ClippedSphereFormFactor( const in vec3 f ) {
	float l = length( f );
	return max( ( l * l + f.z ) / ( l + 1.0 ), 0.0 );
}
vec3 LTC_EdgeVectorFormFactor( const in vec3 v1, const in vec3 v2 ) {
	float x = dot( v1, v2 );
	float y = abs( x );
	float a = 0.8543985 + ( 0.4965155 + 0.0145206 * y ) * y;
	float b = 3.4175940 + ( 4.1616724 + y ) * y;
	float v = a / b;
	float theta_sintheta = ( x > 0.0 ) ? v : 0.5 * inversesqrt( max( 1.0 - x * x, 1e-7 ) ) - v;
	return cross( v1, v2 ) * theta_sintheta;
}
vec3 LTC_Evaluate( const in vec3 N, const in vec3 V, const in vec3 P, const in mat3 mInv, const in vec3 rectCoords[ 4 ] ) {
	vec3 v1 = rectCoords[ 1 ] - rectCoords[ 0 ];
	vec3 v2 = rectCoords[ 3 ] - rectCoords[ 0 ];
	vec3 lightNormal = cross( v1, v2 );
	if( dot( lightNormal, P - rectCoords[ 0 ] ) < 0.0 ) return vec3( 0.0 );
	vec3 T1, T2;
	T1 = normalize( V - N * dot( V, N ) );
	T2 = - cross( N, T1 );
	mat3 mat = mInv * transpose( mat3( T1, T2, N ) );
	vec3 coords[ 4 ];
	coords[ 0 ] = mat * ( rectCoords[ 0 ] - P );
	coords[ 1 ] = mat * ( rectCoords[ 1 ] - P );
	coords[ 2 ] = mat * ( rectCoords[ 2 ] - P );
	coords[ 3 ] = mat * ( rectCoords[ 3 ] - P );
	coords[ 0 ] = normalize( coords[ 0 ] );
	coords[ 1 ] = normalize( coords[ 1 ] );
	coords[ 2 ] = normalize( coords[ 2 ] );
	coords[ 3 ] = normalize( coords[ 3 ] );
	vec3 vectorFormFactor = vec3( 0.0 );
	vectorFormFactor += LTC_EdgeVectorFormFactor( coords[ 0 ], coords[ 1 ] );
	vectorFormFactor += LTC_EdgeVectorFormFactor( coords[ 1 ], coords[ 2 ] );
	vectorFormFactor += LTC_EdgeVectorFormFactor( coords[ 2 ], coords[ 3 ] );
	vectorFormFactor += LTC_EdgeVectorFormFactor( coords[ 3 ], coords[ 0 ] );
	float result = LTC_ClippedSphereFormFactor( vectorFormFactor );
	return vec3( result );
}
#if defined( USE_SHEEN )
float D_Charlie( float roughness, float dotNH ) {
	float alpha = pow2( roughness );
	float invAlpha = 1.0 / alpha;
	float cos2h = dotNH * dotNH;
	float sin2h = max( 1.0 - cos2h, 0.0078125 );
	return ( 2.0 + invAlpha ) * pow( sin2h, invAlpha * 0.5 ) / ( 2.0 * PI );
}
float V_Neubelt( float dotNV, float dotNL ) {
	return saturate( 1.0 / ( 4.0 * ( dotNL + dotNV - dotNL * dotNV ) ) );
}
vec3 BRDF_Sheen( const in vec3 lightDir, const in vec3 viewDir, const in vec3 normal, vec3 sheenColor, const in float sheenRoughness ) {
	vec3 halfDir = normalize( lightDir + viewDir );
	float dotNL = saturate( dot( normal, lightDir ) );
	float dotNV = saturate( dot( normal, viewDir ) );
	float dotNH = saturate( dot( normal, halfDir ) );
	float D = D_Charlie( sheenRoughness, dotNH );
	float V = V_Neubelt( dotNV, dotNL );
	return sheenColor * ( D * V );
}
#endif
float IBLSheenBRDF( const in vec3 normal, const in vec3 viewDir, const in float roughness ) {
	float dotNV = saturate( dot( normal, viewDir ) );
	float r2 = roughness * roughness;
	float rInv = 1.0 / ( roughness + 0.1 );
	float a = -1.9362 + 1.0678 * roughness + 0.4573 * r2 - 0.8469 * rInv;
	float b = -0.6014 + 0.5538 * roughness - 0.4670 * r2 - 0.1255 * rInv;
	float DG = exp( a * dotNV + b );
	return saturate( DG );
}
vec3 EnvironmentBRDF( const in vec3 normal, const in vec3 viewDir, const in vec3 specularColor, const in float specularF90, const in float roughness ) {
	float dotNV = saturate( dot( normal, viewDir ) );
	vec2 fab = texture2D( dfgLUT, vec2( roughness, dotNV ) ).rg;
	return specularColor * fab.x + specularF90 * fab.y;
}
#ifdef USE_IRIDESCENCE
void computeMultiscatteringIridescence( const in vec2 fab, const in vec3 specularColor, const in float specularF90, const in float iridescence, const in vec3 iridescenceF0, inout vec3 singleScatter, inout vec3 multiScatter ) {
#else
void computeMultiscattering( const in vec2 fab, const in vec3 specularColor, const in float specularF90, inout vec3 singleScatter, inout vec3 multiScatter ) {
#endif
	#ifdef USE_IRIDESCENCE
		vec3 Fr = mix( specularColor, iridescenceF0, iridescence );
	#else
		vec3 Fr = specularColor;
	#endif
	vec3 FssEss = Fr * fab.x + specularF90 * fab.y;
	float Ess = fab.x + fab.y;
	float Ems = 1.0 - Ess;
	vec3 Favg = Fr + ( 1.0 - Fr ) * 0.047619;	vec3 Fms = FssEss * Favg / ( 1.0 - Ems * Favg );
	singleScatter += FssEss;
	multiScatter += Fms * Ems;
}
#if NUM_RECT_AREA_LIGHTS > 0
	void RE_Direct_RectArea_Physical( const in RectAreaLight rectAreaLight, const in vec3 geometryPosition, const in vec3 geometryNormal, const in vec3 geometryViewDir, const in vec3 geometryClearcoatNormal, const in PhysicalMaterial material, inout ReflectedLight reflectedLight ) {
		vec3 normal = geometryNormal;
		vec3 viewDir = geometryViewDir;
		vec3 position = geometryPosition;
		vec3 lightPos = rectAreaLight.position;
		vec3 halfWidth = rectAreaLight.halfWidth;
		vec3 halfHeight = rectAreaLight.halfHeight;
		vec3 lightColor = rectAreaLight.color;
		float roughness = material.roughness;
		vec3 rectCoords[ 4 ];
		rectCoords[ 0 ] = lightPos + halfWidth - halfHeight;		rectCoords[ 1 ] = lightPos - halfWidth - halfHeight;
		rectCoords[ 2 ] = lightPos - halfWidth + halfHeight;
		rectCoords[ 3 ] = lightPos + halfWidth + halfHeight;
		vec2 uv = LTC_Uv( normal, viewDir, roughness );
		vec4 t1 = texture2D( ltc_1, uv );
		vec4 t2 = texture2D( ltc_2, uv );
		mat3 mInv = mat3(
			vec3( t1.x, 0, t1.y ),
			vec3(    0, 1,    0 ),
			vec3( t1.z, 0, t1.w )
		);
		vec3 fresnel = ( material.specularColorBlended * t2.x + ( material.specularF90 - material.specularColorBlended ) * t2.y );
		reflectedLight.directSpecular += lightColor * fresnel * LTC_Evaluate( normal, viewDir, position, mInv, rectCoords );
		reflectedLight.directDiffuse += lightColor * material.diffuseContribution * LTC_Evaluate( normal, viewDir, position, mat3( 1.0 ), rectCoords );
		#ifdef USE_CLEARCOAT
			vec3 Ncc = geometryClearcoatNormal;
			vec2 uvClearcoat = LTC_Uv( Ncc, viewDir, material.clearcoatRoughness );
			vec4 t1Clearcoat = texture2D( ltc_1, uvClearcoat );
			vec4 t2Clearcoat = texture2D( ltc_2, uvClearcoat );
			mat3 mInvClearcoat = mat3(
				vec3( t1Clearcoat.x, 0, t1Clearcoat.y ),
				vec3(             0, 1,             0 ),
				vec3( t1Clearcoat.z, 0, t1Clearcoat.w )
			);
			vec3 fresnelClearcoat = material.clearcoatF0 * t2Clearcoat.x + ( material.clearcoatF90 - material.clearcoatF0 ) * t2Clearcoat.y;
			clearcoatSpecularDirect += lightColor * fresnelClearcoat * LTC_Evaluate( Ncc, viewDir, position, mInvClearcoat, rectCoords );
		#endif
	}
#endif
void RE_Direct_Physical( const in IncidentLight directLight, const in vec3 geometryPosition, const in vec3 geometryNormal, const in vec3 geometryViewDir, const in vec3 geometryClearcoatNormal, const in PhysicalMaterial material, inout ReflectedLight reflectedLight ) {
	float dotNL = saturate( dot( geometryNormal, directLight.direction ) );
	vec3 irradiance = dotNL * directLight.color;
	#ifdef USE_CLEARCOAT
		float dotNLcc = saturate( dot( geometryClearcoatNormal, directLight.direction ) );
		vec3 ccIrradiance = dotNLcc * directLight.color;
		clearcoatSpecularDirect += ccIrradiance * BRDF_GGX_Clearcoat( directLight.direction, geometryViewDir, geometryClearcoatNormal, material );
	#endif
	#ifdef USE_SHEEN
 
 		sheenSpecularDirect += irradiance * BRDF_Sheen( directLight.direction, geometryViewDir, geometryNormal, material.sheenColor, material.sheenRoughness );
 
 		float sheenAlbedoV = IBLSheenBRDF( geometryNormal, geometryViewDir, material.sheenRoughness );
 		float sheenAlbedoL = IBLSheenBRDF( geometryNormal, directLight.direction, material.sheenRoughness );
 
 		float sheenEnergyComp = 1.0 - max3( material.sheenColor ) * max( sheenAlbedoV, sheenAlbedoL );
 
 		irradiance *= sheenEnergyComp;
 
 	#endif
	vec3 specularBRDF = BRDF_GGX( directLight.direction, geometryViewDir, geometryNormal, material );
	#ifdef USE_RETROREFLECTION
		vec3 retroViewDir = reflect( - geometryViewDir, geometryNormal );
		vec3 retroSpecularBRDF = BRDF_GGX( directLight.direction, retroViewDir, geometryNormal, material );
		specularBRDF = mix( specularBRDF, retroSpecularBRDF, saturate( material.retroreflectivity ) );
	#endif
	reflectedLight.directSpecular += irradiance * specularBRDF * material.multiScatteringCompensation;
	vec3 halfDir = normalize( directLight.direction + geometryViewDir );
	float dotVH = saturate( dot( geometryViewDir, halfDir ) );
	vec3 F = F_Schlick( material.specularColor, material.specularF90, dotVH );
	#ifdef USE_RETROREFLECTION
		vec3 retroHalfDir = normalize( directLight.direction + retroViewDir );
		float dotRetroVH = saturate( dot( retroViewDir, retroHalfDir ) );
		vec3 retroF = F_Schlick( material.specularColor, material.specularF90, dotRetroVH );
		F = mix( F, retroF, saturate( material.retroreflectivity ) );
	#endif
	#ifdef USE_DIFFUSE_ROUGHNESS
		vec3 diffuseBRDF = BRDF_EON( directLight.direction, geometryViewDir, geometryNormal, material.diffuseColor, material.diffuseRoughness ) * ( 1.0 - material.metalness );
	#else
		vec3 diffuseBRDF = BRDF_Lambert( material.diffuseContribution );
	#endif
	reflectedLight.directDiffuse += irradiance * diffuseBRDF * ( 1.0 - F );
}
void RE_IndirectDiffuse_Physical( const in vec3 irradiance, const in vec3 geometryPosition, const in vec3 geometryNormal, const in vec3 geometryViewDir, const in vec3 geometryClearcoatNormal, const in PhysicalMaterial material, inout ReflectedLight reflectedLight ) {
	vec3 singleScattering = vec3( 0.0 );
	vec3 multiScattering = vec3( 0.0 );
	#ifdef USE_IRIDESCENCE
		computeMultiscatteringIridescence( material.dfg, material.specularColor, material.specularF90, material.iridescence, material.iridescenceF0Dielectric, singleScattering, multiScattering );
	#else
		computeMultiscattering( material.dfg, material.specularColor, material.specularF90, singleScattering, multiScattering );
	#endif
	#ifdef USE_DIFFUSE_ROUGHNESS
		float dotNV = saturate( dot( geometryNormal, geometryViewDir ) );
		vec3 diffuseAlbedo = EON_DirectionalAlbedo( material.diffuseColor, material.diffuseRoughness, dotNV ) * ( 1.0 - material.metalness );
		vec3 diffuse = irradiance * RECIPROCAL_PI * diffuseAlbedo * ( 1.0 - singleScattering - multiScattering );
	#else
		vec3 diffuse = irradiance * BRDF_Lambert( material.diffuseContribution ) * ( 1.0 - singleScattering - multiScattering );
	#endif
	#ifdef USE_SHEEN
		float sheenAlbedo = IBLSheenBRDF( geometryNormal, geometryViewDir, material.sheenRoughness );
		sheenSpecularIndirect += irradiance * material.sheenColor * sheenAlbedo * RECIPROCAL_PI;
		float sheenEnergyComp = 1.0 - max3( material.sheenColor ) * sheenAlbedo;
		diffuse *= sheenEnergyComp;
	#endif
	reflectedLight.indirectDiffuse += diffuse;
}
void RE_IndirectSpecular_Physical( const in vec3 radiance, const in vec3 irradiance, const in vec3 clearcoatRadiance, const in vec3 geometryPosition, const in vec3 geometryNormal, const in vec3 geometryViewDir, const in vec3 geometryClearcoatNormal, const in PhysicalMaterial material, inout ReflectedLight reflectedLight) {
	#ifdef USE_CLEARCOAT
		clearcoatSpecularIndirect += clearcoatRadiance * EnvironmentBRDF( geometryClearcoatNormal, geometryViewDir, material.clearcoatF0, material.clearcoatF90, material.clearcoatRoughness );
	#endif
	#ifdef USE_SHEEN
		sheenSpecularIndirect += irradiance * material.sheenColor * IBLSheenBRDF( geometryNormal, geometryViewDir, material.sheenRoughness ) * RECIPROCAL_PI;
 	#endif
	vec3 singleScatteringDielectric = vec3( 0.0 );
	vec3 multiScatteringDielectric = vec3( 0.0 );
	vec3 singleScatteringMetallic = vec3( 0.0 );
	vec3 multiScatteringMetallic = vec3( 0.0 );
	#ifdef USE_IRIDESCENCE
		computeMultiscatteringIridescence( material.dfg, material.specularColor, material.specularF90, material.iridescence, material.iridescenceF0Dielectric, singleScatteringDielectric, multiScatteringDielectric );
		computeMultiscatteringIridescence( material.dfg, material.diffuseColor, material.specularF90, material.iridescence, material.iridescenceF0Metallic, singleScatteringMetallic, multiScatteringMetallic );
	#else
		computeMultiscattering( material.dfg, material.specularColor, material.specularF90, singleScatteringDielectric, multiScatteringDielectric );
		computeMultiscattering( material.dfg, material.diffuseColor, material.specularF90, singleScatteringMetallic, multiScatteringMetallic );
	#endif
	vec3 singleScattering = mix( singleScatteringDielectric, singleScatteringMetallic, material.metalness );
	vec3 multiScattering = mix( multiScatteringDielectric, multiScatteringMetallic, material.metalness );
	vec3 totalScatteringDielectric = singleScatteringDielectric + multiScatteringDielectric;
	#ifdef USE_DIFFUSE_ROUGHNESS
		float dotNV = saturate( dot( geometryNormal, geometryViewDir ) );
		vec3 diffuse = EON_DirectionalAlbedo( material.diffuseColor, material.diffuseRoughness, dotNV ) * ( 1.0 - material.metalness ) * ( 1.0 - totalScatteringDielectric );
	#else
		vec3 diffuse = material.diffuseContribution * ( 1.0 - totalScatteringDielectric );
	#endif
	vec3 cosineWeightedIrradiance = irradiance * RECIPROCAL_PI;
	vec3 indirectSpecular = radiance * singleScattering;
	indirectSpecular += multiScattering * cosineWeightedIrradiance;
	vec3 indirectDiffuse = diffuse * cosineWeightedIrradiance;
	#ifdef USE_SHEEN
		float sheenAlbedo = IBLSheenBRDF( geometryNormal, geometryViewDir, material.sheenRoughness );
		float sheenEnergyComp = 1.0 - max3( material.sheenColor ) * sheenAlbedo;
		indirectSpecular *= sheenEnergyComp;
		indirectDiffuse *= sheenEnergyComp;
	#endif
	reflectedLight.indirectSpecular += indirectSpecular;
	reflectedLight.indirectDiffuse += indirectDiffuse;
}
#define RE_Direct				RE_Direct_Physical
#define RE_Direct_RectArea		RE_Direct_RectArea_Physical
#define RE_IndirectDiffuse		RE_IndirectDiffuse_Physical
#define RE_IndirectSpecular		RE_IndirectSpecular_Physical
float computeSpecularOcclusion( const in float dotNV, const in float ambientOcclusion, const in float roughness ) {
	return saturate( pow( dotNV + ambientOcclusion, exp2( - 16.0 * roughness - 1.0 ) ) - 1.0 + ambientOcclusion );
}`,lights_fragment_begin:`
vec3 geometryPosition = - vViewPosition;
vec3 geometryNormal = normal;
vec3 geometryViewDir = ( isOrthographic ) ? vec3( 0, 0, 1 ) : normalize( vViewPosition );
vec3 geometryClearcoatNormal = vec3( 0.0 );
#ifdef USE_CLEARCOAT
	geometryClearcoatNormal = clearcoatNormal;
#endif
#ifdef USE_IRIDESCENCE
	float dotNVi = saturate( dot( normal, geometryViewDir ) );
	if ( material.iridescenceThickness == 0.0 ) {
		material.iridescence = 0.0;
	} else {
		material.iridescence = saturate( material.iridescence );
	}
	if ( material.iridescence > 0.0 ) {
		vec3 iridescenceFresnelDielectric = evalIridescence( 1.0, material.iridescenceIOR, dotNVi, material.iridescenceThickness, material.specularColor );
		vec3 iridescenceFresnelMetallic = evalIridescence( 1.0, material.iridescenceIOR, dotNVi, material.iridescenceThickness, material.diffuseColor );
		material.iridescenceFresnel = mix( iridescenceFresnelDielectric, iridescenceFresnelMetallic, material.metalness );
		material.iridescenceF0Dielectric = Schlick_to_F0( iridescenceFresnelDielectric, 1.0, dotNVi );
		material.iridescenceF0Metallic = Schlick_to_F0( iridescenceFresnelMetallic, 1.0, dotNVi );
	}
#endif
#ifdef STANDARD
	float dotNVms = saturate( dot( geometryNormal, geometryViewDir ) );
	material.dfg = texture2D( dfgLUT, vec2( material.roughness, dotNVms ) ).rg;
	#if ( NUM_SUN_LIGHTS > 0 || NUM_DIR_LIGHTS > 0 || NUM_POINT_LIGHTS > 0 || NUM_SPOT_LIGHTS > 0 )
		float EssMs = material.dfg.x + material.dfg.y;
		material.multiScatteringCompensation = 1.0 + material.specularColorBlended * ( 1.0 / EssMs - 1.0 );
	#endif
#endif
IncidentLight directLight;
#if ( NUM_POINT_LIGHTS > 0 ) && defined( RE_Direct )
	PointLight pointLight;
	#if defined( USE_SHADOWMAP ) && NUM_POINT_LIGHT_SHADOWS > 0
	PointLightShadow pointLightShadow;
	#endif
	#pragma unroll_loop_start
	for ( int i = 0; i < NUM_POINT_LIGHTS; i ++ ) {
		pointLight = pointLights[ i ];
		getPointLightInfo( pointLight, geometryPosition, directLight );
		#if defined( USE_SHADOWMAP ) && ( UNROLLED_LOOP_INDEX < NUM_POINT_LIGHT_SHADOWS ) && ( defined( SHADOWMAP_TYPE_PCF ) || defined( SHADOWMAP_TYPE_BASIC ) )
		pointLightShadow = pointLightShadows[ i ];
		directLight.color *= ( directLight.visible && receiveShadow ) ? getPointShadow( pointShadowMap[ i ], pointLightShadow.shadowMapSize, pointLightShadow.shadowIntensity, pointLightShadow.shadowBias, pointLightShadow.shadowRadius, vPointShadowCoord[ i ], pointLightShadow.shadowCameraNear, pointLightShadow.shadowCameraFar ) : 1.0;
		#endif
		RE_Direct( directLight, geometryPosition, geometryNormal, geometryViewDir, geometryClearcoatNormal, material, reflectedLight );
	}
	#pragma unroll_loop_end
#endif
#if ( NUM_SPOT_LIGHTS > 0 ) && defined( RE_Direct )
	SpotLight spotLight;
	vec4 spotColor;
	vec3 spotLightCoord;
	bool inSpotLightMap;
	#if defined( USE_SHADOWMAP ) && NUM_SPOT_LIGHT_SHADOWS > 0
	SpotLightShadow spotLightShadow;
	#endif
	#pragma unroll_loop_start
	for ( int i = 0; i < NUM_SPOT_LIGHTS; i ++ ) {
		spotLight = spotLights[ i ];
		getSpotLightInfo( spotLight, geometryPosition, directLight );
		#if ( UNROLLED_LOOP_INDEX < NUM_SPOT_LIGHT_SHADOWS_WITH_MAPS )
		#define SPOT_LIGHT_MAP_INDEX UNROLLED_LOOP_INDEX
		#elif ( UNROLLED_LOOP_INDEX < NUM_SPOT_LIGHT_SHADOWS )
		#define SPOT_LIGHT_MAP_INDEX NUM_SPOT_LIGHT_MAPS
		#else
		#define SPOT_LIGHT_MAP_INDEX ( UNROLLED_LOOP_INDEX - NUM_SPOT_LIGHT_SHADOWS + NUM_SPOT_LIGHT_SHADOWS_WITH_MAPS )
		#endif
		#if ( SPOT_LIGHT_MAP_INDEX < NUM_SPOT_LIGHT_MAPS )
			spotLightCoord = vSpotLightCoord[ i ].xyz / vSpotLightCoord[ i ].w;
			inSpotLightMap = all( lessThan( abs( spotLightCoord * 2. - 1. ), vec3( 1.0 ) ) );
			spotColor = texture2D( spotLightMap[ SPOT_LIGHT_MAP_INDEX ], spotLightCoord.xy );
			directLight.color = inSpotLightMap ? directLight.color * spotColor.rgb : directLight.color;
		#endif
		#undef SPOT_LIGHT_MAP_INDEX
		#if defined( USE_SHADOWMAP ) && ( UNROLLED_LOOP_INDEX < NUM_SPOT_LIGHT_SHADOWS )
		spotLightShadow = spotLightShadows[ i ];
		directLight.color *= ( directLight.visible && receiveShadow ) ? getShadow( spotShadowMap[ i ], spotLightShadow.shadowMapSize, spotLightShadow.shadowIntensity, spotLightShadow.shadowBias, spotLightShadow.shadowRadius, vSpotLightCoord[ i ] ) : 1.0;
		#endif
		RE_Direct( directLight, geometryPosition, geometryNormal, geometryViewDir, geometryClearcoatNormal, material, reflectedLight );
	}
	#pragma unroll_loop_end
#endif
#if ( NUM_SUN_LIGHTS > 0 ) && defined( RE_Direct )
	SunLight sunLight;
	#if defined( USE_SHADOWMAP ) && NUM_SUN_LIGHT_SHADOWS > 0
	SunLightShadow sunLightShadow;
	#endif
	#pragma unroll_loop_start
	for ( int i = 0; i < NUM_SUN_LIGHTS; i ++ ) {
		sunLight = sunLights[ i ];
		getSunLightInfo( sunLight, directLight );
		#if defined( USE_SHADOWMAP ) && ( UNROLLED_LOOP_INDEX < NUM_SUN_LIGHT_SHADOWS )
		sunLightShadow = sunLightShadows[ i ];
		directLight.color *= ( directLight.visible && receiveShadow ) ? getSunShadow( sunShadowMap[ i ], sunLightShadow, UNROLLED_LOOP_INDEX ) : 1.0;
		#endif
		RE_Direct( directLight, geometryPosition, geometryNormal, geometryViewDir, geometryClearcoatNormal, material, reflectedLight );
	}
	#pragma unroll_loop_end
#endif
#if ( NUM_DIR_LIGHTS > 0 ) && defined( RE_Direct )
	DirectionalLight directionalLight;
	#if defined( USE_SHADOWMAP ) && NUM_DIR_LIGHT_SHADOWS > 0
	DirectionalLightShadow directionalLightShadow;
	#endif
	#pragma unroll_loop_start
	for ( int i = 0; i < NUM_DIR_LIGHTS; i ++ ) {
		directionalLight = directionalLights[ i ];
		getDirectionalLightInfo( directionalLight, directLight );
		#if defined( USE_SHADOWMAP ) && ( UNROLLED_LOOP_INDEX < NUM_DIR_LIGHT_SHADOWS )
		directionalLightShadow = directionalLightShadows[ i ];
		directLight.color *= ( directLight.visible && receiveShadow ) ? getShadow( directionalShadowMap[ i ], directionalLightShadow.shadowMapSize, directionalLightShadow.shadowIntensity, directionalLightShadow.shadowBias, directionalLightShadow.shadowRadius, vDirectionalShadowCoord[ i ] ) : 1.0;
		#endif
		RE_Direct( directLight, geometryPosition, geometryNormal, geometryViewDir, geometryClearcoatNormal, material, reflectedLight );
	}
	#pragma unroll_loop_end
#endif
#if ( NUM_RECT_AREA_LIGHTS > 0 ) && defined( RE_Direct_RectArea )
	RectAreaLight rectAreaLight;
	#pragma unroll_loop_start
	for ( int i = 0; i < NUM_RECT_AREA_LIGHTS; i ++ ) {
		rectAreaLight = rectAreaLights[ i ];
		RE_Direct_RectArea( rectAreaLight, geometryPosition, geometryNormal, geometryViewDir, geometryClearcoatNormal, material, reflectedLight );
	}
	#pragma unroll_loop_end
#endif
#if defined( RE_IndirectDiffuse )
	vec3 iblIrradiance = vec3( 0.0 );
	vec3 irradiance = getAmbientLightIrradiance( ambientLightColor );
	#if defined( USE_LIGHT_PROBES )
		irradiance += getLightProbeIrradiance( lightProbe, geometryNormal );
	#endif
	#if ( NUM_HEMI_LIGHTS > 0 )
		#pragma unroll_loop_start
		for ( int i = 0; i < NUM_HEMI_LIGHTS; i ++ ) {
			irradiance += getHemisphereLightIrradiance( hemisphereLights[ i ], geometryNormal );
		}
		#pragma unroll_loop_end
	#endif
	#if NUM_LIGHT_PROBE_GRIDS > 0
		vec3 probeWorldPos = ( ( vec4( geometryPosition, 1.0 ) - viewMatrix[ 3 ] ) * viewMatrix ).xyz;
		vec3 probeWorldNormal = transformNormalByInverseViewMatrix( geometryNormal, viewMatrix );
		int probeGrid = - 1;
		#pragma unroll_loop_start
		for ( int i = 0; i < NUM_LIGHT_PROBE_GRIDS; i ++ ) {
			if ( isInsideLightProbeGrid( probeWorldPos, probeWorldNormal, probesMin[ i ], probesMax[ i ], probesResolution[ i ] ) ) probeGrid = UNROLLED_LOOP_INDEX;
		}
		#pragma unroll_loop_end
		#pragma unroll_loop_start
		for ( int i = 0; i < NUM_LIGHT_PROBE_GRIDS; i ++ ) {
			if ( probeGrid == UNROLLED_LOOP_INDEX ) irradiance += getLightProbeGridIrradiance( probesSH[ i ], probesMin[ i ], probesMax[ i ], probesResolution[ i ], probeWorldPos, probeWorldNormal );
		}
		#pragma unroll_loop_end
	#endif
#endif
#if defined( RE_IndirectSpecular )
	vec3 radiance = vec3( 0.0 );
	vec3 clearcoatRadiance = vec3( 0.0 );
#endif`,lights_fragment_maps:`#if defined( RE_IndirectDiffuse )
	#ifdef USE_LIGHTMAP
		vec4 lightMapTexel = texture2D( lightMap, vLightMapUv );
		vec3 lightMapIrradiance = lightMapTexel.rgb * lightMapIntensity;
		irradiance += lightMapIrradiance;
	#endif
	#if defined( USE_ENVMAP ) && defined( ENVMAP_TYPE_PMREM )
		#if defined( STANDARD ) || defined( LAMBERT ) || defined( PHONG )
			iblIrradiance += getIBLIrradiance( geometryNormal );
		#endif
	#endif
#endif
#if defined( USE_ENVMAP ) && defined( RE_IndirectSpecular )
	#ifdef USE_ANISOTROPY
		vec3 iblRadiance = getIBLAnisotropyRadiance( geometryViewDir, geometryNormal, material.roughness, material.anisotropyB, material.anisotropy );
	#else
		vec3 iblRadiance = getIBLRadiance( geometryViewDir, geometryNormal, material.roughness );
	#endif
	#ifdef USE_RETROREFLECTION
		#ifdef USE_ANISOTROPY
			vec3 retroIBLRadiance = getIBLAnisotropyRetroRadiance( geometryViewDir, geometryNormal, material.roughness, material.anisotropyB, material.anisotropy );
		#else
			vec3 retroIBLRadiance = getIBLRetroRadiance( geometryViewDir, geometryNormal, material.roughness );
		#endif
		iblRadiance = mix( iblRadiance, retroIBLRadiance, saturate( material.retroreflectivity ) );
	#endif
	radiance += iblRadiance;
	#ifdef USE_CLEARCOAT
		clearcoatRadiance += getIBLRadiance( geometryViewDir, geometryClearcoatNormal, material.clearcoatRoughness );
	#endif
#endif`,lights_fragment_end:`#if defined( RE_IndirectDiffuse )
	#if defined( LAMBERT ) || defined( PHONG )
		irradiance += iblIrradiance;
	#endif
	RE_IndirectDiffuse( irradiance, geometryPosition, geometryNormal, geometryViewDir, geometryClearcoatNormal, material, reflectedLight );
#endif
#if defined( RE_IndirectSpecular )
	RE_IndirectSpecular( radiance, iblIrradiance, clearcoatRadiance, geometryPosition, geometryNormal, geometryViewDir, geometryClearcoatNormal, material, reflectedLight );
#endif`,lightprobes_pars_fragment:`#if NUM_LIGHT_PROBE_GRIDS > 0
uniform highp sampler3D probesSH[ NUM_LIGHT_PROBE_GRIDS ];
uniform vec3 probesMin[ NUM_LIGHT_PROBE_GRIDS ];
uniform vec3 probesMax[ NUM_LIGHT_PROBE_GRIDS ];
uniform vec3 probesResolution[ NUM_LIGHT_PROBE_GRIDS ];
bool isInsideLightProbeGrid( vec3 worldPos, vec3 worldNormal, vec3 probesMin, vec3 probesMax, vec3 probesResolution ) {
	vec3 spacing = ( probesMax - probesMin ) / probesResolution;
	vec3 samplePos = worldPos + worldNormal * spacing * 0.5;
	vec3 margin = spacing * 0.01;
	return all( greaterThanEqual( samplePos, probesMin - margin ) ) && all( lessThanEqual( samplePos, probesMax + margin ) );
}
vec3 getLightProbeGridIrradiance( highp sampler3D probesSH, vec3 probesMin, vec3 probesMax, vec3 probesResolution, vec3 worldPos, vec3 worldNormal ) {
	vec3 res = probesResolution;
	vec3 gridRange = probesMax - probesMin;
	vec3 probeSpacing = gridRange / res;
	vec3 samplePos = worldPos + worldNormal * probeSpacing * 0.5;
	vec3 uvw = clamp( ( samplePos - probesMin ) / gridRange, 0.5 / res, 1.0 - 0.5 / res );
	float nz          = res.z;
	float paddedSlices = nz + 2.0;
	float atlasDepth  = 7.0 * paddedSlices;
	float uvZBase     = uvw.z * nz + 1.0;
	vec4 s0 = texture( probesSH, vec3( uvw.xy, ( uvZBase                       ) / atlasDepth ) );
	vec4 s1 = texture( probesSH, vec3( uvw.xy, ( uvZBase +       paddedSlices   ) / atlasDepth ) );
	vec4 s2 = texture( probesSH, vec3( uvw.xy, ( uvZBase + 2.0 * paddedSlices   ) / atlasDepth ) );
	vec4 s3 = texture( probesSH, vec3( uvw.xy, ( uvZBase + 3.0 * paddedSlices   ) / atlasDepth ) );
	vec4 s4 = texture( probesSH, vec3( uvw.xy, ( uvZBase + 4.0 * paddedSlices   ) / atlasDepth ) );
	vec4 s5 = texture( probesSH, vec3( uvw.xy, ( uvZBase + 5.0 * paddedSlices   ) / atlasDepth ) );
	vec4 s6 = texture( probesSH, vec3( uvw.xy, ( uvZBase + 6.0 * paddedSlices   ) / atlasDepth ) );
	vec3 c0 = s0.xyz;
	vec3 c1 = vec3( s0.w, s1.xy );
	vec3 c2 = vec3( s1.zw, s2.x );
	vec3 c3 = s2.yzw;
	vec3 c4 = s3.xyz;
	vec3 c5 = vec3( s3.w, s4.xy );
	vec3 c6 = vec3( s4.zw, s5.x );
	vec3 c7 = s5.yzw;
	vec3 c8 = s6.xyz;
	float x = worldNormal.x, y = worldNormal.y, z = worldNormal.z;
	vec3 result = c0 * 0.886227;
	result += c1 * 2.0 * 0.511664 * y;
	result += c2 * 2.0 * 0.511664 * z;
	result += c3 * 2.0 * 0.511664 * x;
	result += c4 * 2.0 * 0.429043 * x * y;
	result += c5 * 2.0 * 0.429043 * y * z;
	result += c6 * ( 0.743125 * z * z - 0.247708 );
	result += c7 * 2.0 * 0.429043 * x * z;
	result += c8 * 0.429043 * ( x * x - y * y );
	return max( result, vec3( 0.0 ) );
}
#endif`,logdepthbuf_fragment:`#if defined( USE_LOGARITHMIC_DEPTH_BUFFER )
	gl_FragDepth = vIsPerspective == 0.0 ? gl_FragCoord.z : log2( vFragDepth ) * logDepthBufFC * 0.5;
#endif`,logdepthbuf_pars_fragment:`#if defined( USE_LOGARITHMIC_DEPTH_BUFFER )
	uniform float logDepthBufFC;
	varying float vFragDepth;
	varying float vIsPerspective;
#endif`,logdepthbuf_pars_vertex:`#ifdef USE_LOGARITHMIC_DEPTH_BUFFER
	varying float vFragDepth;
	varying float vIsPerspective;
#endif`,logdepthbuf_vertex:`#ifdef USE_LOGARITHMIC_DEPTH_BUFFER
	vFragDepth = 1.0 + gl_Position.w;
	vIsPerspective = float( isPerspectiveMatrix( projectionMatrix ) );
#endif`,map_fragment:`#ifdef USE_MAP
	vec4 sampledDiffuseColor = texture2D( map, vMapUv );
	#ifdef DECODE_VIDEO_TEXTURE
		sampledDiffuseColor = sRGBTransferEOTF( sampledDiffuseColor );
	#endif
	diffuseColor *= sampledDiffuseColor;
#endif`,map_pars_fragment:`#ifdef USE_MAP
	uniform sampler2D map;
#endif`,map_particle_fragment:`#if defined( USE_MAP ) || defined( USE_ALPHAMAP )
	#if defined( USE_POINTS_UV )
		vec2 uv = vUv;
	#else
		vec2 uv = ( uvTransform * vec3( gl_PointCoord.x, 1.0 - gl_PointCoord.y, 1 ) ).xy;
	#endif
#endif
#ifdef USE_MAP
	diffuseColor *= texture2D( map, uv );
#endif
#ifdef USE_ALPHAMAP
	diffuseColor.a *= texture2D( alphaMap, uv ).g;
#endif`,map_particle_pars_fragment:`#if defined( USE_POINTS_UV )
	varying vec2 vUv;
#else
	#if defined( USE_MAP ) || defined( USE_ALPHAMAP )
		uniform mat3 uvTransform;
	#endif
#endif
#ifdef USE_MAP
	uniform sampler2D map;
#endif
#ifdef USE_ALPHAMAP
	uniform sampler2D alphaMap;
#endif`,metalnessmap_fragment:`float metalnessFactor = metalness;
#ifdef USE_METALNESSMAP
	vec4 texelMetalness = texture2D( metalnessMap, vMetalnessMapUv );
	metalnessFactor *= texelMetalness.b;
#endif`,metalnessmap_pars_fragment:`#ifdef USE_METALNESSMAP
	uniform sampler2D metalnessMap;
#endif`,morphinstance_vertex:`#ifdef USE_INSTANCING_MORPH
	float morphTargetInfluences[ MORPHTARGETS_COUNT ];
	float morphTargetBaseInfluence = texelFetch( morphTexture, ivec2( 0, gl_InstanceID ), 0 ).r;
	for ( int i = 0; i < MORPHTARGETS_COUNT; i ++ ) {
		morphTargetInfluences[i] =  texelFetch( morphTexture, ivec2( i + 1, gl_InstanceID ), 0 ).r;
	}
#endif`,morphcolor_vertex:`#if defined( USE_MORPHCOLORS )
	#if defined( USE_COLOR_ALPHA )
		vColor *= morphTargetBaseInfluence;
	#elif defined( USE_COLOR )
		vColor.rgb *= morphTargetBaseInfluence;
	#endif
	for ( int i = 0; i < MORPHTARGETS_COUNT; i ++ ) {
		#if defined( USE_COLOR_ALPHA )
			if ( morphTargetInfluences[ i ] != 0.0 ) vColor += getMorph( gl_VertexID, i, 2 ) * morphTargetInfluences[ i ];
		#elif defined( USE_COLOR )
			if ( morphTargetInfluences[ i ] != 0.0 ) vColor.rgb += getMorph( gl_VertexID, i, 2 ).rgb * morphTargetInfluences[ i ];
		#endif
	}
#endif`,morphnormal_vertex:`#ifdef USE_MORPHNORMALS
	objectNormal *= morphTargetBaseInfluence;
	for ( int i = 0; i < MORPHTARGETS_COUNT; i ++ ) {
		if ( morphTargetInfluences[ i ] != 0.0 ) objectNormal += getMorph( gl_VertexID, i, 1 ).xyz * morphTargetInfluences[ i ];
	}
#endif`,morphtarget_pars_vertex:`#ifdef USE_MORPHTARGETS
	#ifndef USE_INSTANCING_MORPH
		uniform float morphTargetBaseInfluence;
		uniform float morphTargetInfluences[ MORPHTARGETS_COUNT ];
	#endif
	uniform sampler2DArray morphTargetsTexture;
	uniform ivec2 morphTargetsTextureSize;
	vec4 getMorph( const in int vertexIndex, const in int morphTargetIndex, const in int offset ) {
		int texelIndex = vertexIndex * MORPHTARGETS_TEXTURE_STRIDE + offset;
		int y = texelIndex / morphTargetsTextureSize.x;
		int x = texelIndex - y * morphTargetsTextureSize.x;
		ivec3 morphUV = ivec3( x, y, morphTargetIndex );
		return texelFetch( morphTargetsTexture, morphUV, 0 );
	}
#endif`,morphtarget_vertex:`#ifdef USE_MORPHTARGETS
	transformed *= morphTargetBaseInfluence;
	for ( int i = 0; i < MORPHTARGETS_COUNT; i ++ ) {
		if ( morphTargetInfluences[ i ] != 0.0 ) transformed += getMorph( gl_VertexID, i, 0 ).xyz * morphTargetInfluences[ i ];
	}
#endif`,normal_fragment_begin:`float faceDirection = gl_FrontFacing ? 1.0 : - 1.0;
#ifdef FLAT_SHADED
	vec3 fdx = dFdx( vViewPosition );
	vec3 fdy = dFdy( vViewPosition );
	vec3 normal = normalize( cross( fdx, fdy ) );
#else
	vec3 normal = normalize( vNormal );
	#ifdef DOUBLE_SIDED
		normal *= faceDirection;
	#endif
#endif
#if defined( USE_NORMALMAP_TANGENTSPACE ) || defined( USE_CLEARCOAT_NORMALMAP ) || defined( USE_ANISOTROPY )
	#ifdef USE_TANGENT
		mat3 tbn = mat3( normalize( vTangent ), normalize( vBitangent ), normal );
	#else
		mat3 tbn = getTangentFrame( - vViewPosition, normal,
		#if defined( USE_NORMALMAP )
			vNormalMapUv
		#elif defined( USE_CLEARCOAT_NORMALMAP )
			vClearcoatNormalMapUv
		#else
			vUv
		#endif
		);
	#endif
	#ifdef DOUBLE_SIDED
		tbn[0] *= faceDirection;
		tbn[1] *= faceDirection;
	#endif
#endif
#ifdef USE_CLEARCOAT_NORMALMAP
	#ifdef USE_TANGENT
		mat3 tbn2 = mat3( normalize( vTangent ), normalize( vBitangent ), normal );
	#else
		mat3 tbn2 = getTangentFrame( - vViewPosition, normal, vClearcoatNormalMapUv );
	#endif
	#ifdef DOUBLE_SIDED
		tbn2[0] *= faceDirection;
		tbn2[1] *= faceDirection;
	#endif
#endif
vec3 nonPerturbedNormal = normal;`,normal_fragment_maps:`#ifdef USE_NORMALMAP_OBJECTSPACE
	normal = texture2D( normalMap, vNormalMapUv ).xyz * 2.0 - 1.0;
	#ifdef FLIP_SIDED
		normal = - normal;
	#endif
	#ifdef DOUBLE_SIDED
		normal = normal * faceDirection;
	#endif
	normal = normalize( normalMatrix * normal );
#elif defined( USE_NORMALMAP_TANGENTSPACE )
	vec3 mapN = texture2D( normalMap, vNormalMapUv ).xyz * 2.0 - 1.0;
	#if defined( USE_PACKED_NORMALMAP )
		mapN = vec3( mapN.xy, sqrt( saturate( 1.0 - dot( mapN.xy, mapN.xy ) ) ) );
	#endif
	mapN.xy *= normalScale;
	normal = normalize( tbn * mapN );
#elif defined( USE_BUMPMAP )
	normal = perturbNormalArb( - vViewPosition, normal, dHdxy_fwd(), faceDirection );
#endif`,normal_pars_fragment:`#ifndef FLAT_SHADED
	varying vec3 vNormal;
	#ifdef USE_TANGENT
		varying vec3 vTangent;
		varying vec3 vBitangent;
	#endif
#endif`,normal_pars_vertex:`#ifndef FLAT_SHADED
	varying vec3 vNormal;
	#ifdef USE_TANGENT
		varying vec3 vTangent;
		varying vec3 vBitangent;
	#endif
#endif`,normal_vertex:`#ifndef FLAT_SHADED
	vNormal = normalize( transformedNormal );
	#ifdef USE_TANGENT
		vTangent = normalize( transformedTangent );
		vBitangent = normalize( cross( vNormal, vTangent ) * tangent.w );
		#ifdef FLIP_SIDED
			vBitangent = - vBitangent;
		#endif
	#endif
#endif`,normalmap_pars_fragment:`#ifdef USE_NORMALMAP
	uniform sampler2D normalMap;
	uniform vec2 normalScale;
#endif
#ifdef USE_NORMALMAP_OBJECTSPACE
	uniform mat3 normalMatrix;
#endif
#if ! defined ( USE_TANGENT ) && ( defined ( USE_NORMALMAP_TANGENTSPACE ) || defined ( USE_CLEARCOAT_NORMALMAP ) || defined( USE_ANISOTROPY ) )
	mat3 getTangentFrame( vec3 eye_pos, vec3 surf_norm, vec2 uv ) {
		vec3 q0 = dFdx( eye_pos.xyz );
		vec3 q1 = dFdy( eye_pos.xyz );
		vec2 st0 = dFdx( uv.st );
		vec2 st1 = dFdy( uv.st );
		vec3 N = surf_norm;
		vec3 q1perp = cross( q1, N );
		vec3 q0perp = cross( N, q0 );
		vec3 T = q1perp * st0.x + q0perp * st1.x;
		vec3 B = q1perp * st0.y + q0perp * st1.y;
		float det = max( dot( T, T ), dot( B, B ) );
		float scale = ( det == 0.0 ) ? 0.0 : inversesqrt( det );
		return mat3( T * scale, B * scale, N );
	}
#endif`,clearcoat_normal_fragment_begin:`#ifdef USE_CLEARCOAT
	vec3 clearcoatNormal = nonPerturbedNormal;
#endif`,clearcoat_normal_fragment_maps:`#ifdef USE_CLEARCOAT_NORMALMAP
	vec3 clearcoatMapN = texture2D( clearcoatNormalMap, vClearcoatNormalMapUv ).xyz * 2.0 - 1.0;
	clearcoatMapN.xy *= clearcoatNormalScale;
	clearcoatNormal = normalize( tbn2 * clearcoatMapN );
#endif`,clearcoat_pars_fragment:`#ifdef USE_CLEARCOATMAP
	uniform sampler2D clearcoatMap;
#endif
#ifdef USE_CLEARCOAT_NORMALMAP
	uniform sampler2D clearcoatNormalMap;
	uniform vec2 clearcoatNormalScale;
#endif
#ifdef USE_CLEARCOAT_ROUGHNESSMAP
	uniform sampler2D clearcoatRoughnessMap;
#endif`,iridescence_pars_fragment:`#ifdef USE_IRIDESCENCEMAP
	uniform sampler2D iridescenceMap;
#endif
#ifdef USE_IRIDESCENCE_THICKNESSMAP
	uniform sampler2D iridescenceThicknessMap;
#endif`,opaque_fragment:`#ifdef OPAQUE
diffuseColor.a = 1.0;
#endif
#ifdef USE_TRANSMISSION
diffuseColor.a *= material.transmissionAlpha;
#endif
gl_FragColor = vec4( outgoingLight, diffuseColor.a );`,packing:`vec3 packNormalToRGB( const in vec3 normal ) {
	return normalize( normal ) * 0.5 + 0.5;
}
vec3 unpackRGBToNormal( const in vec3 rgb ) {
	return 2.0 * rgb.xyz - 1.0;
}
const float PackUpscale = 256. / 255.;const float UnpackDownscale = 255. / 256.;const float ShiftRight8 = 1. / 256.;
const float Inv255 = 1. / 255.;
const vec4 PackFactors = vec4( 1.0, 256.0, 256.0 * 256.0, 256.0 * 256.0 * 256.0 );
const vec2 UnpackFactors2 = vec2( UnpackDownscale, 1.0 / PackFactors.g );
const vec3 UnpackFactors3 = vec3( UnpackDownscale / PackFactors.rg, 1.0 / PackFactors.b );
const vec4 UnpackFactors4 = vec4( UnpackDownscale / PackFactors.rgb, 1.0 / PackFactors.a );
vec4 packDepthToRGBA( const in float v ) {
	if( v <= 0.0 )
		return vec4( 0., 0., 0., 0. );
	if( v >= 1.0 )
		return vec4( 1., 1., 1., 1. );
	float vuf;
	float af = modf( v * PackFactors.a, vuf );
	float bf = modf( vuf * ShiftRight8, vuf );
	float gf = modf( vuf * ShiftRight8, vuf );
	return vec4( vuf * Inv255, gf * PackUpscale, bf * PackUpscale, af );
}
vec3 packDepthToRGB( const in float v ) {
	if( v <= 0.0 )
		return vec3( 0., 0., 0. );
	if( v >= 1.0 )
		return vec3( 1., 1., 1. );
	float vuf;
	float bf = modf( v * PackFactors.b, vuf );
	float gf = modf( vuf * ShiftRight8, vuf );
	return vec3( vuf * Inv255, gf * PackUpscale, bf );
}
vec2 packDepthToRG( const in float v ) {
	if( v <= 0.0 )
		return vec2( 0., 0. );
	if( v >= 1.0 )
		return vec2( 1., 1. );
	float vuf;
	float gf = modf( v * 256., vuf );
	return vec2( vuf * Inv255, gf );
}
float unpackRGBAToDepth( const in vec4 v ) {
	return dot( v, UnpackFactors4 );
}
float unpackRGBToDepth( const in vec3 v ) {
	return dot( v, UnpackFactors3 );
}
float unpackRGToDepth( const in vec2 v ) {
	return v.r * UnpackFactors2.r + v.g * UnpackFactors2.g;
}
vec4 pack2HalfToRGBA( const in vec2 v ) {
	vec4 r = vec4( v.x, fract( v.x * 255.0 ), v.y, fract( v.y * 255.0 ) );
	return vec4( r.x - r.y / 255.0, r.y, r.z - r.w / 255.0, r.w );
}
vec2 unpackRGBATo2Half( const in vec4 v ) {
	return vec2( v.x + ( v.y / 255.0 ), v.z + ( v.w / 255.0 ) );
}
float viewZToOrthographicDepth( const in float viewZ, const in float near, const in float far ) {
	return ( viewZ + near ) / ( near - far );
}
float orthographicDepthToViewZ( const in float depth, const in float near, const in float far ) {
	#ifdef USE_REVERSED_DEPTH_BUFFER
	
		return depth * ( far - near ) - far;
	#else
		return depth * ( near - far ) - near;
	#endif
}
float viewZToPerspectiveDepth( const in float viewZ, const in float near, const in float far ) {
	return ( ( near + viewZ ) * far ) / ( ( far - near ) * viewZ );
}
float perspectiveDepthToViewZ( const in float depth, const in float near, const in float far ) {
	
	#ifdef USE_REVERSED_DEPTH_BUFFER
		return ( near * far ) / ( ( near - far ) * depth - near );
	#else
		return ( near * far ) / ( ( far - near ) * depth - far );
	#endif
}`,premultiplied_alpha_fragment:`#ifdef PREMULTIPLIED_ALPHA
	gl_FragColor.rgb *= gl_FragColor.a;
#endif`,project_vertex:`vec4 mvPosition = vec4( transformed, 1.0 );
#ifdef USE_BATCHING
	mvPosition = batchingMatrix * mvPosition;
#endif
#ifdef USE_INSTANCING
	mvPosition = instanceMatrix * mvPosition;
#endif
mvPosition = modelViewMatrix * mvPosition;
gl_Position = projectionMatrix * mvPosition;`,dithering_fragment:`#ifdef DITHERING
	gl_FragColor.rgb = dithering( gl_FragColor.rgb );
#endif`,dithering_pars_fragment:`#ifdef DITHERING
	vec3 dithering( vec3 color ) {
		float grid_position = rand( gl_FragCoord.xy );
		vec3 dither_shift_RGB = vec3( 0.25 / 255.0, -0.25 / 255.0, 0.25 / 255.0 );
		dither_shift_RGB = mix( 2.0 * dither_shift_RGB, -2.0 * dither_shift_RGB, grid_position );
		return color + dither_shift_RGB;
	}
#endif`,roughnessmap_fragment:`float roughnessFactor = roughness;
#ifdef USE_ROUGHNESSMAP
	vec4 texelRoughness = texture2D( roughnessMap, vRoughnessMapUv );
	roughnessFactor *= texelRoughness.g;
#endif`,roughnessmap_pars_fragment:`#ifdef USE_ROUGHNESSMAP
	uniform sampler2D roughnessMap;
#endif`,shadowmap_pars_fragment:`#if NUM_SPOT_LIGHT_COORDS > 0
	varying vec4 vSpotLightCoord[ NUM_SPOT_LIGHT_COORDS ];
#endif
#if NUM_SPOT_LIGHT_MAPS > 0
	uniform sampler2D spotLightMap[ NUM_SPOT_LIGHT_MAPS ];
#endif
#ifdef USE_SHADOWMAP
	#if NUM_SUN_LIGHT_SHADOWS > 0
		#define SUN_LIGHT_CASCADES 2
		#if defined( SHADOWMAP_TYPE_PCF )
			uniform sampler2DShadow sunShadowMap[ NUM_SUN_LIGHT_SHADOWS ];
		#else
			uniform sampler2D sunShadowMap[ NUM_SUN_LIGHT_SHADOWS ];
		#endif
		uniform mat4 sunShadowMatrix[ NUM_SUN_LIGHT_SHADOWS * SUN_LIGHT_CASCADES ];
		uniform vec4 sunShadowCascade[ NUM_SUN_LIGHT_SHADOWS * SUN_LIGHT_CASCADES ];
		varying vec4 vSunShadowWorldPosition;
		varying vec3 vSunShadowWorldNormal;
		struct SunLightShadow {
			float shadowIntensity;
			float shadowBias;
			float shadowNormalBias;
			float shadowRadius;
			vec2 shadowMapSize;
		};
		uniform SunLightShadow sunLightShadows[ NUM_SUN_LIGHT_SHADOWS ];
	#endif
	#if NUM_DIR_LIGHT_SHADOWS > 0
		#if defined( SHADOWMAP_TYPE_PCF )
			uniform sampler2DShadow directionalShadowMap[ NUM_DIR_LIGHT_SHADOWS ];
		#else
			uniform sampler2D directionalShadowMap[ NUM_DIR_LIGHT_SHADOWS ];
		#endif
		varying vec4 vDirectionalShadowCoord[ NUM_DIR_LIGHT_SHADOWS ];
		struct DirectionalLightShadow {
			float shadowIntensity;
			float shadowBias;
			float shadowNormalBias;
			float shadowRadius;
			vec2 shadowMapSize;
		};
		uniform DirectionalLightShadow directionalLightShadows[ NUM_DIR_LIGHT_SHADOWS ];
	#endif
	#if NUM_SPOT_LIGHT_SHADOWS > 0
		#if defined( SHADOWMAP_TYPE_PCF )
			uniform sampler2DShadow spotShadowMap[ NUM_SPOT_LIGHT_SHADOWS ];
		#else
			uniform sampler2D spotShadowMap[ NUM_SPOT_LIGHT_SHADOWS ];
		#endif
		struct SpotLightShadow {
			float shadowIntensity;
			float shadowBias;
			float shadowNormalBias;
			float shadowRadius;
			vec2 shadowMapSize;
		};
		uniform SpotLightShadow spotLightShadows[ NUM_SPOT_LIGHT_SHADOWS ];
	#endif
	#if NUM_POINT_LIGHT_SHADOWS > 0
		#if defined( SHADOWMAP_TYPE_PCF )
			uniform samplerCubeShadow pointShadowMap[ NUM_POINT_LIGHT_SHADOWS ];
		#elif defined( SHADOWMAP_TYPE_BASIC )
			uniform samplerCube pointShadowMap[ NUM_POINT_LIGHT_SHADOWS ];
		#endif
		varying vec4 vPointShadowCoord[ NUM_POINT_LIGHT_SHADOWS ];
		struct PointLightShadow {
			float shadowIntensity;
			float shadowBias;
			float shadowNormalBias;
			float shadowRadius;
			vec2 shadowMapSize;
			float shadowCameraNear;
			float shadowCameraFar;
		};
		uniform PointLightShadow pointLightShadows[ NUM_POINT_LIGHT_SHADOWS ];
	#endif
	#if defined( SHADOWMAP_TYPE_PCF )
		float interleavedGradientNoise( vec2 position ) {
			return fract( 52.9829189 * fract( dot( position, vec2( 0.06711056, 0.00583715 ) ) ) );
		}
		vec2 vogelDiskSample( int sampleIndex, int samplesCount, float phi ) {
			const float goldenAngle = 2.399963229728653;
			float r = sqrt( ( float( sampleIndex ) + 0.5 ) / float( samplesCount ) );
			float theta = float( sampleIndex ) * goldenAngle + phi;
			return vec2( cos( theta ), sin( theta ) ) * r;
		}
	#endif
	#if defined( SHADOWMAP_TYPE_PCF )
		float getShadow( sampler2DShadow shadowMap, vec2 shadowMapSize, float shadowIntensity, float shadowBias, float shadowRadius, vec4 shadowCoord ) {
			float shadow = 1.0;
			shadowCoord.xyz /= shadowCoord.w;
			#ifdef USE_REVERSED_DEPTH_BUFFER
				shadowCoord.z -= shadowBias;
			#else
				shadowCoord.z += shadowBias;
			#endif
			bool inFrustum = shadowCoord.x >= 0.0 && shadowCoord.x <= 1.0 && shadowCoord.y >= 0.0 && shadowCoord.y <= 1.0;
			bool frustumTest = inFrustum && shadowCoord.z <= 1.0;
			if ( frustumTest ) {
				vec2 texelSize = vec2( 1.0 ) / shadowMapSize;
				vec2 radius = shadowRadius * texelSize;
				float phi = interleavedGradientNoise( gl_FragCoord.xy ) * PI2;
				shadow = (
					texture( shadowMap, vec3( shadowCoord.xy + vogelDiskSample( 0, 5, phi ) * radius, shadowCoord.z ) ) +
					texture( shadowMap, vec3( shadowCoord.xy + vogelDiskSample( 1, 5, phi ) * radius, shadowCoord.z ) ) +
					texture( shadowMap, vec3( shadowCoord.xy + vogelDiskSample( 2, 5, phi ) * radius, shadowCoord.z ) ) +
					texture( shadowMap, vec3( shadowCoord.xy + vogelDiskSample( 3, 5, phi ) * radius, shadowCoord.z ) ) +
					texture( shadowMap, vec3( shadowCoord.xy + vogelDiskSample( 4, 5, phi ) * radius, shadowCoord.z ) )
				) * 0.2;
			}
			return mix( 1.0, shadow, shadowIntensity );
		}
	#elif defined( SHADOWMAP_TYPE_VSM )
		float getShadow( sampler2D shadowMap, vec2 shadowMapSize, float shadowIntensity, float shadowBias, float shadowRadius, vec4 shadowCoord ) {
			float shadow = 1.0;
			shadowCoord.xyz /= shadowCoord.w;
			#ifdef USE_REVERSED_DEPTH_BUFFER
				shadowCoord.z -= shadowBias;
			#else
				shadowCoord.z += shadowBias;
			#endif
			bool inFrustum = shadowCoord.x >= 0.0 && shadowCoord.x <= 1.0 && shadowCoord.y >= 0.0 && shadowCoord.y <= 1.0;
			bool frustumTest = inFrustum && shadowCoord.z <= 1.0;
			if ( frustumTest ) {
				vec2 distribution = texture2D( shadowMap, shadowCoord.xy ).rg;
				float mean = distribution.x;
				float variance = distribution.y * distribution.y;
				#ifdef USE_REVERSED_DEPTH_BUFFER
					float hard_shadow = step( mean, shadowCoord.z );
				#else
					float hard_shadow = step( shadowCoord.z, mean );
				#endif
				
				if ( hard_shadow == 1.0 ) {
					shadow = 1.0;
				} else {
					variance = max( variance, 0.0000001 );
					float d = shadowCoord.z - mean;
					float p_max = variance / ( variance + d * d );
					p_max = clamp( ( p_max - 0.3 ) / 0.65, 0.0, 1.0 );
					shadow = max( hard_shadow, p_max );
				}
			}
			return mix( 1.0, shadow, shadowIntensity );
		}
	#else
		float getShadow( sampler2D shadowMap, vec2 shadowMapSize, float shadowIntensity, float shadowBias, float shadowRadius, vec4 shadowCoord ) {
			float shadow = 1.0;
			shadowCoord.xyz /= shadowCoord.w;
			#ifdef USE_REVERSED_DEPTH_BUFFER
				shadowCoord.z -= shadowBias;
			#else
				shadowCoord.z += shadowBias;
			#endif
			bool inFrustum = shadowCoord.x >= 0.0 && shadowCoord.x <= 1.0 && shadowCoord.y >= 0.0 && shadowCoord.y <= 1.0;
			bool frustumTest = inFrustum && shadowCoord.z <= 1.0;
			if ( frustumTest ) {
				float depth = texture2D( shadowMap, shadowCoord.xy ).r;
				#ifdef USE_REVERSED_DEPTH_BUFFER
					shadow = step( depth, shadowCoord.z );
				#else
					shadow = step( shadowCoord.z, depth );
				#endif
			}
			return mix( 1.0, shadow, shadowIntensity );
		}
	#endif
	#if NUM_SUN_LIGHT_SHADOWS > 0
		float getSunShadow(
			#if defined( SHADOWMAP_TYPE_PCF )
				sampler2DShadow shadowMap,
			#else
				sampler2D shadowMap,
			#endif
			SunLightShadow sunLightShadow,
			int shadowIndex
		) {
			vec4 shadowWorldPosition = vec4( vSunShadowWorldPosition.xyz + vSunShadowWorldNormal * sunLightShadow.shadowNormalBias, 1.0 );
			float viewDepth = vSunShadowWorldPosition.w;
			int cascadeOffset = shadowIndex * SUN_LIGHT_CASCADES;
			float shadow = 1.0;
			for ( int i = SUN_LIGHT_CASCADES - 1; i >= 0; i -- ) {
				vec4 cascade = sunShadowCascade[ cascadeOffset + i ];
				if ( viewDepth >= cascade.x && viewDepth < cascade.y ) {
					float cascadeShadow = getShadow(
						shadowMap,
						sunLightShadow.shadowMapSize,
						sunLightShadow.shadowIntensity,
						sunLightShadow.shadowBias,
						sunLightShadow.shadowRadius,
						sunShadowMatrix[ cascadeOffset + i ] * shadowWorldPosition
					);
					shadow = mix( cascadeShadow, shadow, smoothstep( cascade.z, cascade.y, viewDepth ) );
				}
			}
			return shadow;
		}
	#endif
	#if NUM_POINT_LIGHT_SHADOWS > 0
	#if defined( SHADOWMAP_TYPE_PCF )
	float getPointShadow( samplerCubeShadow shadowMap, vec2 shadowMapSize, float shadowIntensity, float shadowBias, float shadowRadius, vec4 shadowCoord, float shadowCameraNear, float shadowCameraFar ) {
		float shadow = 1.0;
		vec3 lightToPosition = shadowCoord.xyz;
		vec3 bd3D = normalize( lightToPosition );
		vec3 absVec = abs( lightToPosition );
		float viewSpaceZ = max( max( absVec.x, absVec.y ), absVec.z );
		if ( viewSpaceZ - shadowCameraFar <= 0.0 && viewSpaceZ - shadowCameraNear >= 0.0 ) {
			float lightDistance = length( lightToPosition );
			float depthRange = shadowCameraFar - shadowCameraNear;
			#ifdef USE_REVERSED_DEPTH_BUFFER
				float depthA = - shadowCameraNear / depthRange - shadowBias;
				float depthB = shadowCameraNear * shadowCameraFar / ( depthRange * lightDistance );
			#else
				float depthA = shadowCameraFar / depthRange + shadowBias;
				float depthB = - shadowCameraNear * shadowCameraFar / ( depthRange * lightDistance );
			#endif
			float texelSize = shadowRadius / shadowMapSize.x;
			vec3 absDir = abs( bd3D );
			vec3 tangent = absDir.x > absDir.z ? vec3( 0.0, 1.0, 0.0 ) : vec3( 1.0, 0.0, 0.0 );
			tangent = normalize( cross( bd3D, tangent ) );
			vec3 bitangent = cross( bd3D, tangent );
			float phi = interleavedGradientNoise( gl_FragCoord.xy ) * PI2;
			shadow = 0.0;
			for ( int i = 0; i < 5; i ++ ) {
				vec2 offset = vogelDiskSample( i, 5, phi );
				vec3 direction = bd3D + ( tangent * offset.x + bitangent * offset.y ) * texelSize;
				vec3 absDirection = abs( direction );
				float dp = depthA + depthB / max( max( absDirection.x, absDirection.y ), absDirection.z );
				shadow += texture( shadowMap, vec4( direction, dp ) );
			}
			shadow *= 0.2;
		}
		return mix( 1.0, shadow, shadowIntensity );
	}
	#elif defined( SHADOWMAP_TYPE_BASIC )
	float getPointShadow( samplerCube shadowMap, vec2 shadowMapSize, float shadowIntensity, float shadowBias, float shadowRadius, vec4 shadowCoord, float shadowCameraNear, float shadowCameraFar ) {
		float shadow = 1.0;
		vec3 lightToPosition = shadowCoord.xyz;
		vec3 absVec = abs( lightToPosition );
		float viewSpaceZ = max( max( absVec.x, absVec.y ), absVec.z );
		if ( viewSpaceZ - shadowCameraFar <= 0.0 && viewSpaceZ - shadowCameraNear >= 0.0 ) {
			float dp = ( shadowCameraFar * ( viewSpaceZ - shadowCameraNear ) ) / ( viewSpaceZ * ( shadowCameraFar - shadowCameraNear ) );
			dp += shadowBias;
			vec3 bd3D = normalize( lightToPosition );
			float depth = textureCube( shadowMap, bd3D ).r;
			#ifdef USE_REVERSED_DEPTH_BUFFER
				depth = 1.0 - depth;
			#endif
			shadow = step( dp, depth );
		}
		return mix( 1.0, shadow, shadowIntensity );
	}
	#endif
	#endif
#endif`,shadowmap_pars_vertex:`#if NUM_SPOT_LIGHT_COORDS > 0
	uniform mat4 spotLightMatrix[ NUM_SPOT_LIGHT_COORDS ];
	varying vec4 vSpotLightCoord[ NUM_SPOT_LIGHT_COORDS ];
#endif
#ifdef USE_SHADOWMAP
	#if NUM_SUN_LIGHT_SHADOWS > 0
		varying vec4 vSunShadowWorldPosition;
		varying vec3 vSunShadowWorldNormal;
	#endif
	#if NUM_DIR_LIGHT_SHADOWS > 0
		uniform mat4 directionalShadowMatrix[ NUM_DIR_LIGHT_SHADOWS ];
		varying vec4 vDirectionalShadowCoord[ NUM_DIR_LIGHT_SHADOWS ];
		struct DirectionalLightShadow {
			float shadowIntensity;
			float shadowBias;
			float shadowNormalBias;
			float shadowRadius;
			vec2 shadowMapSize;
		};
		uniform DirectionalLightShadow directionalLightShadows[ NUM_DIR_LIGHT_SHADOWS ];
	#endif
	#if NUM_SPOT_LIGHT_SHADOWS > 0
		struct SpotLightShadow {
			float shadowIntensity;
			float shadowBias;
			float shadowNormalBias;
			float shadowRadius;
			vec2 shadowMapSize;
		};
		uniform SpotLightShadow spotLightShadows[ NUM_SPOT_LIGHT_SHADOWS ];
	#endif
	#if NUM_POINT_LIGHT_SHADOWS > 0
		uniform mat4 pointShadowMatrix[ NUM_POINT_LIGHT_SHADOWS ];
		varying vec4 vPointShadowCoord[ NUM_POINT_LIGHT_SHADOWS ];
		struct PointLightShadow {
			float shadowIntensity;
			float shadowBias;
			float shadowNormalBias;
			float shadowRadius;
			vec2 shadowMapSize;
			float shadowCameraNear;
			float shadowCameraFar;
		};
		uniform PointLightShadow pointLightShadows[ NUM_POINT_LIGHT_SHADOWS ];
	#endif
#endif`,shadowmap_vertex:`#if ( defined( USE_SHADOWMAP ) && ( NUM_DIR_LIGHT_SHADOWS > 0 || NUM_SUN_LIGHT_SHADOWS > 0 || NUM_POINT_LIGHT_SHADOWS > 0 ) ) || ( NUM_SPOT_LIGHT_COORDS > 0 )
	#ifdef HAS_NORMAL
		vec3 shadowWorldNormal = transformNormalByInverseViewMatrix( transformedNormal, viewMatrix );
	#else
		vec3 shadowWorldNormal = vec3( 0.0 );
	#endif
	vec4 shadowWorldPosition;
#endif
#if defined( USE_SHADOWMAP )
	#if NUM_SUN_LIGHT_SHADOWS > 0
		vSunShadowWorldPosition = vec4( worldPosition.xyz, - mvPosition.z );
		vSunShadowWorldNormal = shadowWorldNormal;
	#endif
	#if NUM_DIR_LIGHT_SHADOWS > 0
		#pragma unroll_loop_start
		for ( int i = 0; i < NUM_DIR_LIGHT_SHADOWS; i ++ ) {
			shadowWorldPosition = worldPosition + vec4( shadowWorldNormal * directionalLightShadows[ i ].shadowNormalBias, 0 );
			vDirectionalShadowCoord[ i ] = directionalShadowMatrix[ i ] * shadowWorldPosition;
		}
		#pragma unroll_loop_end
	#endif
	#if NUM_POINT_LIGHT_SHADOWS > 0
		#pragma unroll_loop_start
		for ( int i = 0; i < NUM_POINT_LIGHT_SHADOWS; i ++ ) {
			shadowWorldPosition = worldPosition + vec4( shadowWorldNormal * pointLightShadows[ i ].shadowNormalBias, 0 );
			vPointShadowCoord[ i ] = pointShadowMatrix[ i ] * shadowWorldPosition;
		}
		#pragma unroll_loop_end
	#endif
#endif
#if NUM_SPOT_LIGHT_COORDS > 0
	#pragma unroll_loop_start
	for ( int i = 0; i < NUM_SPOT_LIGHT_COORDS; i ++ ) {
		shadowWorldPosition = worldPosition;
		#if ( defined( USE_SHADOWMAP ) && UNROLLED_LOOP_INDEX < NUM_SPOT_LIGHT_SHADOWS )
			shadowWorldPosition.xyz += shadowWorldNormal * spotLightShadows[ i ].shadowNormalBias;
		#endif
		vSpotLightCoord[ i ] = spotLightMatrix[ i ] * shadowWorldPosition;
	}
	#pragma unroll_loop_end
#endif`,shadowmask_pars_fragment:`float getShadowMask() {
	float shadow = 1.0;
	#ifdef USE_SHADOWMAP
	#if NUM_SUN_LIGHT_SHADOWS > 0
	SunLightShadow sunLight;
	#pragma unroll_loop_start
	for ( int i = 0; i < NUM_SUN_LIGHT_SHADOWS; i ++ ) {
		sunLight = sunLightShadows[ i ];
		shadow *= receiveShadow ? getSunShadow( sunShadowMap[ i ], sunLight, UNROLLED_LOOP_INDEX ) : 1.0;
	}
	#pragma unroll_loop_end
	#endif
	#if NUM_DIR_LIGHT_SHADOWS > 0
	DirectionalLightShadow directionalLight;
	#pragma unroll_loop_start
	for ( int i = 0; i < NUM_DIR_LIGHT_SHADOWS; i ++ ) {
		directionalLight = directionalLightShadows[ i ];
		shadow *= receiveShadow ? getShadow( directionalShadowMap[ i ], directionalLight.shadowMapSize, directionalLight.shadowIntensity, directionalLight.shadowBias, directionalLight.shadowRadius, vDirectionalShadowCoord[ i ] ) : 1.0;
	}
	#pragma unroll_loop_end
	#endif
	#if NUM_SPOT_LIGHT_SHADOWS > 0
	SpotLightShadow spotLight;
	#pragma unroll_loop_start
	for ( int i = 0; i < NUM_SPOT_LIGHT_SHADOWS; i ++ ) {
		spotLight = spotLightShadows[ i ];
		shadow *= receiveShadow ? getShadow( spotShadowMap[ i ], spotLight.shadowMapSize, spotLight.shadowIntensity, spotLight.shadowBias, spotLight.shadowRadius, vSpotLightCoord[ i ] ) : 1.0;
	}
	#pragma unroll_loop_end
	#endif
	#if NUM_POINT_LIGHT_SHADOWS > 0 && ( defined( SHADOWMAP_TYPE_PCF ) || defined( SHADOWMAP_TYPE_BASIC ) )
	PointLightShadow pointLight;
	#pragma unroll_loop_start
	for ( int i = 0; i < NUM_POINT_LIGHT_SHADOWS; i ++ ) {
		pointLight = pointLightShadows[ i ];
		shadow *= receiveShadow ? getPointShadow( pointShadowMap[ i ], pointLight.shadowMapSize, pointLight.shadowIntensity, pointLight.shadowBias, pointLight.shadowRadius, vPointShadowCoord[ i ], pointLight.shadowCameraNear, pointLight.shadowCameraFar ) : 1.0;
	}
	#pragma unroll_loop_end
	#endif
	#endif
	return shadow;
}`,skinbase_vertex:`#ifdef USE_SKINNING
	mat4 boneMatX = getBoneMatrix( skinIndex.x );
	mat4 boneMatY = getBoneMatrix( skinIndex.y );
	mat4 boneMatZ = getBoneMatrix( skinIndex.z );
	mat4 boneMatW = getBoneMatrix( skinIndex.w );
#endif`,skinning_pars_vertex:`#ifdef USE_SKINNING
	uniform mat4 bindMatrix;
	uniform mat4 bindMatrixInverse;
	uniform highp sampler2D boneTexture;
	mat4 getBoneMatrix( const in float i ) {
		int size = textureSize( boneTexture, 0 ).x;
		int j = int( i ) * 4;
		int x = j % size;
		int y = j / size;
		vec4 v1 = texelFetch( boneTexture, ivec2( x, y ), 0 );
		vec4 v2 = texelFetch( boneTexture, ivec2( x + 1, y ), 0 );
		vec4 v3 = texelFetch( boneTexture, ivec2( x + 2, y ), 0 );
		vec4 v4 = texelFetch( boneTexture, ivec2( x + 3, y ), 0 );
		return mat4( v1, v2, v3, v4 );
	}
#endif`,skinning_vertex:`#ifdef USE_SKINNING
	vec4 skinVertex = bindMatrix * vec4( transformed, 1.0 );
	vec4 skinned = vec4( 0.0 );
	skinned += boneMatX * skinVertex * skinWeight.x;
	skinned += boneMatY * skinVertex * skinWeight.y;
	skinned += boneMatZ * skinVertex * skinWeight.z;
	skinned += boneMatW * skinVertex * skinWeight.w;
	transformed = ( bindMatrixInverse * skinned ).xyz;
#endif`,skinnormal_vertex:`#ifdef USE_SKINNING
	mat4 skinMatrix = mat4( 0.0 );
	skinMatrix += skinWeight.x * boneMatX;
	skinMatrix += skinWeight.y * boneMatY;
	skinMatrix += skinWeight.z * boneMatZ;
	skinMatrix += skinWeight.w * boneMatW;
	skinMatrix = bindMatrixInverse * skinMatrix * bindMatrix;
	objectNormal = vec4( skinMatrix * vec4( objectNormal, 0.0 ) ).xyz;
	#ifdef USE_TANGENT
		objectTangent = vec4( skinMatrix * vec4( objectTangent, 0.0 ) ).xyz;
	#endif
#endif`,specularmap_fragment:`float specularStrength;
#ifdef USE_SPECULARMAP
	vec4 texelSpecular = texture2D( specularMap, vSpecularMapUv );
	specularStrength = texelSpecular.r;
#else
	specularStrength = 1.0;
#endif`,specularmap_pars_fragment:`#ifdef USE_SPECULARMAP
	uniform sampler2D specularMap;
#endif`,tonemapping_fragment:`#if defined( TONE_MAPPING )
	gl_FragColor.rgb = toneMapping( gl_FragColor.rgb );
#endif`,tonemapping_pars_fragment:`#ifndef saturate
#define saturate( a ) clamp( a, 0.0, 1.0 )
#endif
uniform float toneMappingExposure;
vec3 LinearToneMapping( vec3 color ) {
	return saturate( toneMappingExposure * color );
}
vec3 ReinhardToneMapping( vec3 color ) {
	color *= toneMappingExposure;
	return saturate( color / ( vec3( 1.0 ) + color ) );
}
vec3 CineonToneMapping( vec3 color ) {
	color *= toneMappingExposure;
	color = max( vec3( 0.0 ), color - 0.004 );
	return pow( ( color * ( 6.2 * color + 0.5 ) ) / ( color * ( 6.2 * color + 1.7 ) + 0.06 ), vec3( 2.2 ) );
}
vec3 RRTAndODTFit( vec3 v ) {
	vec3 a = v * ( v + 0.0245786 ) - 0.000090537;
	vec3 b = v * ( 0.983729 * v + 0.4329510 ) + 0.238081;
	return a / b;
}
vec3 ACESFilmicToneMapping( vec3 color ) {
	const mat3 ACESInputMat = mat3(
		vec3( 0.59719, 0.07600, 0.02840 ),		vec3( 0.35458, 0.90834, 0.13383 ),
		vec3( 0.04823, 0.01566, 0.83777 )
	);
	const mat3 ACESOutputMat = mat3(
		vec3(  1.60475, -0.10208, -0.00327 ),		vec3( -0.53108,  1.10813, -0.07276 ),
		vec3( -0.07367, -0.00605,  1.07602 )
	);
	color *= toneMappingExposure / 0.6;
	color = ACESInputMat * color;
	color = RRTAndODTFit( color );
	color = ACESOutputMat * color;
	return saturate( color );
}
const mat3 LINEAR_REC2020_TO_LINEAR_SRGB = mat3(
	vec3( 1.6605, - 0.1246, - 0.0182 ),
	vec3( - 0.5876, 1.1329, - 0.1006 ),
	vec3( - 0.0728, - 0.0083, 1.1187 )
);
const mat3 LINEAR_SRGB_TO_LINEAR_REC2020 = mat3(
	vec3( 0.6274, 0.0691, 0.0164 ),
	vec3( 0.3293, 0.9195, 0.0880 ),
	vec3( 0.0433, 0.0113, 0.8956 )
);
vec3 agxDefaultContrastApprox( vec3 x ) {
	vec3 x2 = x * x;
	vec3 x4 = x2 * x2;
	return + 15.5 * x4 * x2
		- 40.14 * x4 * x
		+ 31.96 * x4
		- 6.868 * x2 * x
		+ 0.4298 * x2
		+ 0.1191 * x
		- 0.00232;
}
vec3 AgXToneMapping( vec3 color ) {
	const mat3 AgXInsetMatrix = mat3(
		vec3( 0.856627153315983, 0.137318972929847, 0.11189821299995 ),
		vec3( 0.0951212405381588, 0.761241990602591, 0.0767994186031903 ),
		vec3( 0.0482516061458583, 0.101439036467562, 0.811302368396859 )
	);
	const mat3 AgXOutsetMatrix = mat3(
		vec3( 1.1271005818144368, - 0.1413297634984383, - 0.14132976349843826 ),
		vec3( - 0.11060664309660323, 1.157823702216272, - 0.11060664309660294 ),
		vec3( - 0.016493938717834573, - 0.016493938717834257, 1.2519364065950405 )
	);
	const float AgxMinEv = - 12.47393;	const float AgxMaxEv = 4.026069;
	color *= toneMappingExposure;
	color = LINEAR_SRGB_TO_LINEAR_REC2020 * color;
	color = AgXInsetMatrix * color;
	color = max( color, 1e-10 );	color = log2( color );
	color = ( color - AgxMinEv ) / ( AgxMaxEv - AgxMinEv );
	color = clamp( color, 0.0, 1.0 );
	color = agxDefaultContrastApprox( color );
	color = AgXOutsetMatrix * color;
	color = pow( max( vec3( 0.0 ), color ), vec3( 2.2 ) );
	color = LINEAR_REC2020_TO_LINEAR_SRGB * color;
	color = clamp( color, 0.0, 1.0 );
	return color;
}
vec3 NeutralToneMapping( vec3 color ) {
	const float StartCompression = 0.8 - 0.04;
	const float Desaturation = 0.15;
	color *= toneMappingExposure;
	float x = min( color.r, min( color.g, color.b ) );
	float offset = x < 0.08 ? x - 6.25 * x * x : 0.04;
	color -= offset;
	float peak = max( color.r, max( color.g, color.b ) );
	if ( peak < StartCompression ) return color;
	float d = 1. - StartCompression;
	float newPeak = 1. - d * d / ( peak + d - StartCompression );
	color *= newPeak / peak;
	float g = 1. - 1. / ( Desaturation * ( peak - newPeak ) + 1. );
	return mix( color, vec3( newPeak ), g );
}
vec3 CustomToneMapping( vec3 color ) { return color; }`,transmission_fragment:`#ifdef USE_TRANSMISSION
	material.transmission = transmission;
	material.transmissionAlpha = 1.0;
	material.thickness = thickness;
	material.attenuationDistance = attenuationDistance;
	material.attenuationColor = attenuationColor;
	#ifdef USE_TRANSMISSIONMAP
		material.transmission *= texture2D( transmissionMap, vTransmissionMapUv ).r;
	#endif
	#ifdef USE_THICKNESSMAP
		material.thickness *= texture2D( thicknessMap, vThicknessMapUv ).g;
	#endif
	vec3 pos = vWorldPosition;
	vec3 v = normalize( cameraPosition - pos );
	vec3 n = transformNormalByInverseViewMatrix( normal, viewMatrix );
	vec4 transmitted = getIBLVolumeRefraction(
		n, v, material.roughness, material.diffuseContribution, material.specularColorBlended, material.specularF90,
		pos, modelMatrix, viewMatrix, projectionMatrix, material.dispersion, material.ior, material.thickness,
		material.attenuationColor, material.attenuationDistance );
	material.transmissionAlpha = mix( material.transmissionAlpha, transmitted.a, material.transmission );
	totalDiffuse = mix( totalDiffuse, transmitted.rgb, material.transmission );
#endif`,transmission_pars_fragment:`#ifdef USE_TRANSMISSION
	uniform float transmission;
	uniform float thickness;
	uniform float attenuationDistance;
	uniform vec3 attenuationColor;
	#ifdef USE_TRANSMISSIONMAP
		uniform sampler2D transmissionMap;
	#endif
	#ifdef USE_THICKNESSMAP
		uniform sampler2D thicknessMap;
	#endif
	uniform vec2 transmissionSamplerSize;
	uniform sampler2D transmissionSamplerMap;
	uniform mat4 modelMatrix;
	uniform mat4 projectionMatrix;
	varying vec3 vWorldPosition;
	float w0( float a ) {
		return ( 1.0 / 6.0 ) * ( a * ( a * ( - a + 3.0 ) - 3.0 ) + 1.0 );
	}
	float w1( float a ) {
		return ( 1.0 / 6.0 ) * ( a *  a * ( 3.0 * a - 6.0 ) + 4.0 );
	}
	float w2( float a ){
		return ( 1.0 / 6.0 ) * ( a * ( a * ( - 3.0 * a + 3.0 ) + 3.0 ) + 1.0 );
	}
	float w3( float a ) {
		return ( 1.0 / 6.0 ) * ( a * a * a );
	}
	float g0( float a ) {
		return w0( a ) + w1( a );
	}
	float g1( float a ) {
		return w2( a ) + w3( a );
	}
	float h0( float a ) {
		return - 1.0 + w1( a ) / ( w0( a ) + w1( a ) );
	}
	float h1( float a ) {
		return 1.0 + w3( a ) / ( w2( a ) + w3( a ) );
	}
	vec4 bicubic( sampler2D tex, vec2 uv, vec4 texelSize, float lod ) {
		uv = uv * texelSize.zw + 0.5;
		vec2 iuv = floor( uv );
		vec2 fuv = fract( uv );
		float g0x = g0( fuv.x );
		float g1x = g1( fuv.x );
		float h0x = h0( fuv.x );
		float h1x = h1( fuv.x );
		float h0y = h0( fuv.y );
		float h1y = h1( fuv.y );
		vec2 p0 = ( vec2( iuv.x + h0x, iuv.y + h0y ) - 0.5 ) * texelSize.xy;
		vec2 p1 = ( vec2( iuv.x + h1x, iuv.y + h0y ) - 0.5 ) * texelSize.xy;
		vec2 p2 = ( vec2( iuv.x + h0x, iuv.y + h1y ) - 0.5 ) * texelSize.xy;
		vec2 p3 = ( vec2( iuv.x + h1x, iuv.y + h1y ) - 0.5 ) * texelSize.xy;
		return g0( fuv.y ) * ( g0x * textureLod( tex, p0, lod ) + g1x * textureLod( tex, p1, lod ) ) +
			g1( fuv.y ) * ( g0x * textureLod( tex, p2, lod ) + g1x * textureLod( tex, p3, lod ) );
	}
	vec4 textureBicubic( sampler2D sampler, vec2 uv, float lod ) {
		vec2 fLodSize = vec2( textureSize( sampler, int( lod ) ) );
		vec2 cLodSize = vec2( textureSize( sampler, int( lod + 1.0 ) ) );
		vec2 fLodSizeInv = 1.0 / fLodSize;
		vec2 cLodSizeInv = 1.0 / cLodSize;
		vec4 fSample = bicubic( sampler, uv, vec4( fLodSizeInv, fLodSize ), floor( lod ) );
		vec4 cSample = bicubic( sampler, uv, vec4( cLodSizeInv, cLodSize ), ceil( lod ) );
		return mix( fSample, cSample, fract( lod ) );
	}
	vec3 getVolumeTransmissionRay( const in vec3 n, const in vec3 v, const in float thickness, const in float ior, const in mat4 modelMatrix ) {
		vec3 refractionVector = refract( - v, normalize( n ), 1.0 / ior );
		vec3 modelScale;
		modelScale.x = length( vec3( modelMatrix[ 0 ].xyz ) );
		modelScale.y = length( vec3( modelMatrix[ 1 ].xyz ) );
		modelScale.z = length( vec3( modelMatrix[ 2 ].xyz ) );
		return normalize( refractionVector ) * thickness * modelScale;
	}
	float applyIorToRoughness( const in float roughness, const in float ior ) {
		return roughness * clamp( ior * 2.0 - 2.0, 0.0, 1.0 );
	}
	vec4 getTransmissionSample( const in vec2 fragCoord, const in float roughness, const in float ior ) {
		float lod = log2( transmissionSamplerSize.x ) * applyIorToRoughness( roughness, ior );
		return textureBicubic( transmissionSamplerMap, fragCoord.xy, lod );
	}
	vec3 volumeAttenuation( const in float transmissionDistance, const in vec3 attenuationColor, const in float attenuationDistance ) {
		if ( isinf( attenuationDistance ) ) {
			return vec3( 1.0 );
		} else {
			vec3 attenuationCoefficient = -log( attenuationColor ) / attenuationDistance;
			vec3 transmittance = exp( - attenuationCoefficient * transmissionDistance );			return transmittance;
		}
	}
	vec4 getIBLVolumeRefraction( const in vec3 n, const in vec3 v, const in float roughness, const in vec3 diffuseColor,
		const in vec3 specularColor, const in float specularF90, const in vec3 position, const in mat4 modelMatrix,
		const in mat4 viewMatrix, const in mat4 projMatrix, const in float dispersion, const in float ior, const in float thickness,
		const in vec3 attenuationColor, const in float attenuationDistance ) {
		vec4 transmittedLight;
		vec3 transmittance;
		#ifdef USE_DISPERSION
			float halfSpread = ( ior - 1.0 ) * 0.025 * dispersion;
			vec3 iors = vec3( ior - halfSpread, ior, ior + halfSpread );
			for ( int i = 0; i < 3; i ++ ) {
				vec3 transmissionRay = getVolumeTransmissionRay( n, v, thickness, iors[ i ], modelMatrix );
				vec3 refractedRayExit = position + transmissionRay;
				vec4 ndcPos = projMatrix * viewMatrix * vec4( refractedRayExit, 1.0 );
				vec2 refractionCoords = ndcPos.xy / ndcPos.w;
				refractionCoords += 1.0;
				refractionCoords /= 2.0;
				vec4 transmissionSample = getTransmissionSample( refractionCoords, roughness, iors[ i ] );
				transmittedLight[ i ] = transmissionSample[ i ];
				transmittedLight.a += transmissionSample.a;
				transmittance[ i ] = diffuseColor[ i ] * volumeAttenuation( length( transmissionRay ), attenuationColor, attenuationDistance )[ i ];
			}
			transmittedLight.a /= 3.0;
		#else
			vec3 transmissionRay = getVolumeTransmissionRay( n, v, thickness, ior, modelMatrix );
			vec3 refractedRayExit = position + transmissionRay;
			vec4 ndcPos = projMatrix * viewMatrix * vec4( refractedRayExit, 1.0 );
			vec2 refractionCoords = ndcPos.xy / ndcPos.w;
			refractionCoords += 1.0;
			refractionCoords /= 2.0;
			transmittedLight = getTransmissionSample( refractionCoords, roughness, ior );
			transmittance = diffuseColor * volumeAttenuation( length( transmissionRay ), attenuationColor, attenuationDistance );
		#endif
		vec3 attenuatedColor = transmittance * transmittedLight.rgb;
		vec3 F = EnvironmentBRDF( n, v, specularColor, specularF90, roughness );
		float transmittanceFactor = ( transmittance.r + transmittance.g + transmittance.b ) / 3.0;
		return vec4( ( 1.0 - F ) * attenuatedColor, 1.0 - ( 1.0 - transmittedLight.a ) * transmittanceFactor );
	}
#endif`,uv_pars_fragment:`#if defined( USE_UV ) || defined( USE_ANISOTROPY )
	varying vec2 vUv;
#endif
#ifdef USE_MAP
	varying vec2 vMapUv;
#endif
#ifdef USE_ALPHAMAP
	varying vec2 vAlphaMapUv;
#endif
#ifdef USE_LIGHTMAP
	varying vec2 vLightMapUv;
#endif
#ifdef USE_AOMAP
	varying vec2 vAoMapUv;
#endif
#ifdef USE_BUMPMAP
	varying vec2 vBumpMapUv;
#endif
#ifdef USE_NORMALMAP
	varying vec2 vNormalMapUv;
#endif
#ifdef USE_EMISSIVEMAP
	varying vec2 vEmissiveMapUv;
#endif
#ifdef USE_METALNESSMAP
	varying vec2 vMetalnessMapUv;
#endif
#ifdef USE_ROUGHNESSMAP
	varying vec2 vRoughnessMapUv;
#endif
#ifdef USE_DIFFUSE_ROUGHNESSMAP
	varying vec2 vDiffuseRoughnessMapUv;
#endif
#ifdef USE_ANISOTROPYMAP
	varying vec2 vAnisotropyMapUv;
#endif
#ifdef USE_CLEARCOATMAP
	varying vec2 vClearcoatMapUv;
#endif
#ifdef USE_CLEARCOAT_NORMALMAP
	varying vec2 vClearcoatNormalMapUv;
#endif
#ifdef USE_CLEARCOAT_ROUGHNESSMAP
	varying vec2 vClearcoatRoughnessMapUv;
#endif
#ifdef USE_IRIDESCENCEMAP
	varying vec2 vIridescenceMapUv;
#endif
#ifdef USE_IRIDESCENCE_THICKNESSMAP
	varying vec2 vIridescenceThicknessMapUv;
#endif
#ifdef USE_SHEEN_COLORMAP
	varying vec2 vSheenColorMapUv;
#endif
#ifdef USE_SHEEN_ROUGHNESSMAP
	varying vec2 vSheenRoughnessMapUv;
#endif
#ifdef USE_SPECULARMAP
	varying vec2 vSpecularMapUv;
#endif
#ifdef USE_SPECULAR_COLORMAP
	varying vec2 vSpecularColorMapUv;
#endif
#ifdef USE_SPECULAR_INTENSITYMAP
	varying vec2 vSpecularIntensityMapUv;
#endif
#ifdef USE_TRANSMISSIONMAP
	uniform mat3 transmissionMapTransform;
	varying vec2 vTransmissionMapUv;
#endif
#ifdef USE_THICKNESSMAP
	uniform mat3 thicknessMapTransform;
	varying vec2 vThicknessMapUv;
#endif`,uv_pars_vertex:`#if defined( USE_UV ) || defined( USE_ANISOTROPY )
	varying vec2 vUv;
#endif
#ifdef USE_MAP
	uniform mat3 mapTransform;
	varying vec2 vMapUv;
#endif
#ifdef USE_ALPHAMAP
	uniform mat3 alphaMapTransform;
	varying vec2 vAlphaMapUv;
#endif
#ifdef USE_LIGHTMAP
	uniform mat3 lightMapTransform;
	varying vec2 vLightMapUv;
#endif
#ifdef USE_AOMAP
	uniform mat3 aoMapTransform;
	varying vec2 vAoMapUv;
#endif
#ifdef USE_BUMPMAP
	uniform mat3 bumpMapTransform;
	varying vec2 vBumpMapUv;
#endif
#ifdef USE_NORMALMAP
	uniform mat3 normalMapTransform;
	varying vec2 vNormalMapUv;
#endif
#ifdef USE_DISPLACEMENTMAP
	uniform mat3 displacementMapTransform;
	varying vec2 vDisplacementMapUv;
#endif
#ifdef USE_EMISSIVEMAP
	uniform mat3 emissiveMapTransform;
	varying vec2 vEmissiveMapUv;
#endif
#ifdef USE_METALNESSMAP
	uniform mat3 metalnessMapTransform;
	varying vec2 vMetalnessMapUv;
#endif
#ifdef USE_ROUGHNESSMAP
	uniform mat3 roughnessMapTransform;
	varying vec2 vRoughnessMapUv;
#endif
#ifdef USE_DIFFUSE_ROUGHNESSMAP
	uniform mat3 diffuseRoughnessMapTransform;
	varying vec2 vDiffuseRoughnessMapUv;
#endif
#ifdef USE_ANISOTROPYMAP
	uniform mat3 anisotropyMapTransform;
	varying vec2 vAnisotropyMapUv;
#endif
#ifdef USE_CLEARCOATMAP
	uniform mat3 clearcoatMapTransform;
	varying vec2 vClearcoatMapUv;
#endif
#ifdef USE_CLEARCOAT_NORMALMAP
	uniform mat3 clearcoatNormalMapTransform;
	varying vec2 vClearcoatNormalMapUv;
#endif
#ifdef USE_CLEARCOAT_ROUGHNESSMAP
	uniform mat3 clearcoatRoughnessMapTransform;
	varying vec2 vClearcoatRoughnessMapUv;
#endif
#ifdef USE_SHEEN_COLORMAP
	uniform mat3 sheenColorMapTransform;
	varying vec2 vSheenColorMapUv;
#endif
#ifdef USE_SHEEN_ROUGHNESSMAP
	uniform mat3 sheenRoughnessMapTransform;
	varying vec2 vSheenRoughnessMapUv;
#endif
#ifdef USE_IRIDESCENCEMAP
	uniform mat3 iridescenceMapTransform;
	varying vec2 vIridescenceMapUv;
#endif
#ifdef USE_IRIDESCENCE_THICKNESSMAP
	uniform mat3 iridescenceThicknessMapTransform;
	varying vec2 vIridescenceThicknessMapUv;
#endif
#ifdef USE_SPECULARMAP
	uniform mat3 specularMapTransform;
	varying vec2 vSpecularMapUv;
#endif
#ifdef USE_SPECULAR_COLORMAP
	uniform mat3 specularColorMapTransform;
	varying vec2 vSpecularColorMapUv;
#endif
#ifdef USE_SPECULAR_INTENSITYMAP
	uniform mat3 specularIntensityMapTransform;
	varying vec2 vSpecularIntensityMapUv;
#endif
#ifdef USE_TRANSMISSIONMAP
	uniform mat3 transmissionMapTransform;
	varying vec2 vTransmissionMapUv;
#endif
#ifdef USE_THICKNESSMAP
	uniform mat3 thicknessMapTransform;
	varying vec2 vThicknessMapUv;
#endif`,uv_vertex:`#if defined( USE_UV ) || defined( USE_ANISOTROPY )
	vUv = vec3( uv, 1 ).xy;
#endif
#ifdef USE_MAP
	vMapUv = ( mapTransform * vec3( MAP_UV, 1 ) ).xy;
#endif
#ifdef USE_ALPHAMAP
	vAlphaMapUv = ( alphaMapTransform * vec3( ALPHAMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_LIGHTMAP
	vLightMapUv = ( lightMapTransform * vec3( LIGHTMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_AOMAP
	vAoMapUv = ( aoMapTransform * vec3( AOMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_BUMPMAP
	vBumpMapUv = ( bumpMapTransform * vec3( BUMPMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_NORMALMAP
	vNormalMapUv = ( normalMapTransform * vec3( NORMALMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_DISPLACEMENTMAP
	vDisplacementMapUv = ( displacementMapTransform * vec3( DISPLACEMENTMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_EMISSIVEMAP
	vEmissiveMapUv = ( emissiveMapTransform * vec3( EMISSIVEMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_METALNESSMAP
	vMetalnessMapUv = ( metalnessMapTransform * vec3( METALNESSMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_ROUGHNESSMAP
	vRoughnessMapUv = ( roughnessMapTransform * vec3( ROUGHNESSMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_DIFFUSE_ROUGHNESSMAP
	vDiffuseRoughnessMapUv = ( diffuseRoughnessMapTransform * vec3( DIFFUSE_ROUGHNESSMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_ANISOTROPYMAP
	vAnisotropyMapUv = ( anisotropyMapTransform * vec3( ANISOTROPYMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_CLEARCOATMAP
	vClearcoatMapUv = ( clearcoatMapTransform * vec3( CLEARCOATMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_CLEARCOAT_NORMALMAP
	vClearcoatNormalMapUv = ( clearcoatNormalMapTransform * vec3( CLEARCOAT_NORMALMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_CLEARCOAT_ROUGHNESSMAP
	vClearcoatRoughnessMapUv = ( clearcoatRoughnessMapTransform * vec3( CLEARCOAT_ROUGHNESSMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_IRIDESCENCEMAP
	vIridescenceMapUv = ( iridescenceMapTransform * vec3( IRIDESCENCEMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_IRIDESCENCE_THICKNESSMAP
	vIridescenceThicknessMapUv = ( iridescenceThicknessMapTransform * vec3( IRIDESCENCE_THICKNESSMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_SHEEN_COLORMAP
	vSheenColorMapUv = ( sheenColorMapTransform * vec3( SHEEN_COLORMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_SHEEN_ROUGHNESSMAP
	vSheenRoughnessMapUv = ( sheenRoughnessMapTransform * vec3( SHEEN_ROUGHNESSMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_SPECULARMAP
	vSpecularMapUv = ( specularMapTransform * vec3( SPECULARMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_SPECULAR_COLORMAP
	vSpecularColorMapUv = ( specularColorMapTransform * vec3( SPECULAR_COLORMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_SPECULAR_INTENSITYMAP
	vSpecularIntensityMapUv = ( specularIntensityMapTransform * vec3( SPECULAR_INTENSITYMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_TRANSMISSIONMAP
	vTransmissionMapUv = ( transmissionMapTransform * vec3( TRANSMISSIONMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_THICKNESSMAP
	vThicknessMapUv = ( thicknessMapTransform * vec3( THICKNESSMAP_UV, 1 ) ).xy;
#endif`,worldpos_vertex:`#if defined( USE_ENVMAP ) || defined( DISTANCE ) || defined ( USE_SHADOWMAP ) || defined ( USE_TRANSMISSION ) || NUM_SPOT_LIGHT_COORDS > 0
	vec4 worldPosition = vec4( transformed, 1.0 );
	#ifdef USE_BATCHING
		worldPosition = batchingMatrix * worldPosition;
	#endif
	#ifdef USE_INSTANCING
		worldPosition = instanceMatrix * worldPosition;
	#endif
	worldPosition = modelMatrix * worldPosition;
#endif`,background_vert:`varying vec2 vUv;
uniform mat3 uvTransform;
void main() {
	vUv = ( uvTransform * vec3( uv, 1 ) ).xy;
	gl_Position = vec4( position.xy, 1.0, 1.0 );
}`,background_frag:`uniform sampler2D t2D;
uniform float backgroundIntensity;
varying vec2 vUv;
void main() {
	vec4 texColor = texture2D( t2D, vUv );
	#ifdef DECODE_VIDEO_TEXTURE
		texColor = vec4( mix( pow( texColor.rgb * 0.9478672986 + vec3( 0.0521327014 ), vec3( 2.4 ) ), texColor.rgb * 0.0773993808, vec3( lessThanEqual( texColor.rgb, vec3( 0.04045 ) ) ) ), texColor.w );
	#endif
	texColor.rgb *= backgroundIntensity;
	gl_FragColor = texColor;
	#include <tonemapping_fragment>
	#include <colorspace_fragment>
}`,backgroundCube_vert:`varying vec3 vWorldDirection;
#include <common>
void main() {
	vWorldDirection = transformDirection( position, modelMatrix );
	#include <begin_vertex>
	#include <project_vertex>
	gl_Position.z = gl_Position.w;
}`,backgroundCube_frag:`uniform float backgroundBlurriness;
uniform float backgroundIntensity;
uniform mat3 backgroundRotation;
varying vec3 vWorldDirection;
#include <envmap_common_pars_fragment>
void main() {
	#ifdef ENVMAP_TYPE_PMREM
		vec4 texColor = textureLod( envMap, backgroundRotation * vWorldDirection, roughnessToMip( backgroundBlurriness ) );
	#else
		vec4 texColor = textureCube( envMap, backgroundRotation * vWorldDirection );
	#endif
	texColor.rgb *= backgroundIntensity;
	gl_FragColor = texColor;
	#include <tonemapping_fragment>
	#include <colorspace_fragment>
}`,cube_vert:`varying vec3 vWorldDirection;
#include <common>
void main() {
	vWorldDirection = transformDirection( position, modelMatrix );
	#include <begin_vertex>
	#include <project_vertex>
	gl_Position.z = gl_Position.w;
}`,cube_frag:`uniform samplerCube tCube;
uniform float tFlip;
uniform float opacity;
varying vec3 vWorldDirection;
void main() {
	vec4 texColor = textureCube( tCube, vec3( tFlip * vWorldDirection.x, vWorldDirection.yz ) );
	gl_FragColor = texColor;
	gl_FragColor.a *= opacity;
	#include <tonemapping_fragment>
	#include <colorspace_fragment>
}`,depth_vert:`#include <common>
#include <batching_pars_vertex>
#include <uv_pars_vertex>
#include <displacementmap_pars_vertex>
#include <morphtarget_pars_vertex>
#include <skinning_pars_vertex>
#include <logdepthbuf_pars_vertex>
#include <clipping_planes_pars_vertex>
varying vec2 vHighPrecisionZW;
void main() {
	#include <uv_vertex>
	#include <batching_vertex>
	#include <skinbase_vertex>
	#include <morphinstance_vertex>
	#ifdef USE_DISPLACEMENTMAP
		#include <beginnormal_vertex>
		#include <morphnormal_vertex>
		#include <skinnormal_vertex>
	#endif
	#include <begin_vertex>
	#include <morphtarget_vertex>
	#include <skinning_vertex>
	#include <displacementmap_vertex>
	#include <project_vertex>
	#include <logdepthbuf_vertex>
	#include <clipping_planes_vertex>
	vHighPrecisionZW = gl_Position.zw;
}`,depth_frag:`#if DEPTH_PACKING == 3200
	uniform float opacity;
#endif
#include <common>
#include <packing>
#include <uv_pars_fragment>
#include <map_pars_fragment>
#include <alphamap_pars_fragment>
#include <alphatest_pars_fragment>
#include <alphahash_pars_fragment>
#include <logdepthbuf_pars_fragment>
#include <clipping_planes_pars_fragment>
varying vec2 vHighPrecisionZW;
void main() {
	vec4 diffuseColor = vec4( 1.0 );
	#include <clipping_planes_fragment>
	#if DEPTH_PACKING == 3200
		diffuseColor.a = opacity;
	#endif
	#include <map_fragment>
	#include <alphamap_fragment>
	#include <alphatest_fragment>
	#include <alphahash_fragment>
	#include <logdepthbuf_fragment>
	#ifdef USE_REVERSED_DEPTH_BUFFER
		float fragCoordZ = vHighPrecisionZW[ 0 ] / vHighPrecisionZW[ 1 ];
	#else
		float fragCoordZ = 0.5 * vHighPrecisionZW[ 0 ] / vHighPrecisionZW[ 1 ] + 0.5;
	#endif
	#if DEPTH_PACKING == 3200
		gl_FragColor = vec4( vec3( 1.0 - fragCoordZ ), opacity );
	#elif DEPTH_PACKING == 3201
		gl_FragColor = packDepthToRGBA( fragCoordZ );
	#elif DEPTH_PACKING == 3202
		gl_FragColor = vec4( packDepthToRGB( fragCoordZ ), 1.0 );
	#elif DEPTH_PACKING == 3203
		gl_FragColor = vec4( packDepthToRG( fragCoordZ ), 0.0, 1.0 );
	#endif
}`,distance_vert:`#define DISTANCE
varying vec3 vWorldPosition;
#include <common>
#include <batching_pars_vertex>
#include <uv_pars_vertex>
#include <displacementmap_pars_vertex>
#include <morphtarget_pars_vertex>
#include <skinning_pars_vertex>
#include <clipping_planes_pars_vertex>
void main() {
	#include <uv_vertex>
	#include <batching_vertex>
	#include <skinbase_vertex>
	#include <morphinstance_vertex>
	#ifdef USE_DISPLACEMENTMAP
		#include <beginnormal_vertex>
		#include <morphnormal_vertex>
		#include <skinnormal_vertex>
	#endif
	#include <begin_vertex>
	#include <morphtarget_vertex>
	#include <skinning_vertex>
	#include <displacementmap_vertex>
	#include <project_vertex>
	#include <worldpos_vertex>
	#include <clipping_planes_vertex>
	vWorldPosition = worldPosition.xyz;
}`,distance_frag:`#define DISTANCE
uniform vec3 referencePosition;
uniform float nearDistance;
uniform float farDistance;
varying vec3 vWorldPosition;
#include <common>
#include <uv_pars_fragment>
#include <map_pars_fragment>
#include <alphamap_pars_fragment>
#include <alphatest_pars_fragment>
#include <alphahash_pars_fragment>
#include <clipping_planes_pars_fragment>
void main() {
	vec4 diffuseColor = vec4( 1.0 );
	#include <clipping_planes_fragment>
	#include <map_fragment>
	#include <alphamap_fragment>
	#include <alphatest_fragment>
	#include <alphahash_fragment>
	float dist = length( vWorldPosition - referencePosition );
	dist = ( dist - nearDistance ) / ( farDistance - nearDistance );
	dist = saturate( dist );
	gl_FragColor = vec4( dist, 0.0, 0.0, 1.0 );
}`,equirect_vert:`varying vec3 vWorldDirection;
#include <common>
void main() {
	vWorldDirection = transformDirection( position, modelMatrix );
	#include <begin_vertex>
	#include <project_vertex>
}`,equirect_frag:`uniform sampler2D tEquirect;
varying vec3 vWorldDirection;
#include <common>
void main() {
	vec3 direction = normalize( vWorldDirection );
	vec2 sampleUV = equirectUv( direction );
	gl_FragColor = texture2D( tEquirect, sampleUV );
	#include <tonemapping_fragment>
	#include <colorspace_fragment>
}`,linedashed_vert:`uniform float scale;
attribute float lineDistance;
varying float vLineDistance;
#include <common>
#include <uv_pars_vertex>
#include <color_pars_vertex>
#include <fog_pars_vertex>
#include <morphtarget_pars_vertex>
#include <logdepthbuf_pars_vertex>
#include <clipping_planes_pars_vertex>
void main() {
	vLineDistance = scale * lineDistance;
	#include <uv_vertex>
	#include <color_vertex>
	#include <morphinstance_vertex>
	#include <morphcolor_vertex>
	#include <begin_vertex>
	#include <morphtarget_vertex>
	#include <project_vertex>
	#include <logdepthbuf_vertex>
	#include <clipping_planes_vertex>
	#include <fog_vertex>
}`,linedashed_frag:`uniform vec3 diffuse;
uniform float opacity;
uniform float dashSize;
uniform float totalSize;
varying float vLineDistance;
#include <common>
#include <color_pars_fragment>
#include <uv_pars_fragment>
#include <map_pars_fragment>
#include <fog_pars_fragment>
#include <logdepthbuf_pars_fragment>
#include <clipping_planes_pars_fragment>
void main() {
	vec4 diffuseColor = vec4( diffuse, opacity );
	#include <clipping_planes_fragment>
	if ( mod( vLineDistance, totalSize ) > dashSize ) {
		discard;
	}
	vec3 outgoingLight = vec3( 0.0 );
	#include <logdepthbuf_fragment>
	#include <map_fragment>
	#include <color_fragment>
	outgoingLight = diffuseColor.rgb;
	#include <opaque_fragment>
	#include <tonemapping_fragment>
	#include <colorspace_fragment>
	#include <fog_fragment>
	#include <premultiplied_alpha_fragment>
}`,meshbasic_vert:`#include <common>
#include <batching_pars_vertex>
#include <uv_pars_vertex>
#include <envmap_pars_vertex>
#include <color_pars_vertex>
#include <fog_pars_vertex>
#include <morphtarget_pars_vertex>
#include <skinning_pars_vertex>
#include <logdepthbuf_pars_vertex>
#include <clipping_planes_pars_vertex>
void main() {
	#include <uv_vertex>
	#include <color_vertex>
	#include <morphinstance_vertex>
	#include <morphcolor_vertex>
	#include <batching_vertex>
	#if defined ( USE_ENVMAP ) || defined ( USE_SKINNING )
		#include <beginnormal_vertex>
		#include <morphnormal_vertex>
		#include <skinbase_vertex>
		#include <skinnormal_vertex>
		#include <defaultnormal_vertex>
	#endif
	#include <begin_vertex>
	#include <morphtarget_vertex>
	#include <skinning_vertex>
	#include <project_vertex>
	#include <logdepthbuf_vertex>
	#include <clipping_planes_vertex>
	#include <worldpos_vertex>
	#include <envmap_vertex>
	#include <fog_vertex>
}`,meshbasic_frag:`uniform vec3 diffuse;
uniform float opacity;
#ifndef FLAT_SHADED
	varying vec3 vNormal;
#endif
#include <common>
#include <dithering_pars_fragment>
#include <color_pars_fragment>
#include <uv_pars_fragment>
#include <map_pars_fragment>
#include <alphamap_pars_fragment>
#include <alphatest_pars_fragment>
#include <alphahash_pars_fragment>
#include <aomap_pars_fragment>
#include <lightmap_pars_fragment>
#include <envmap_common_pars_fragment>
#include <envmap_pars_fragment>
#include <fog_pars_fragment>
#include <specularmap_pars_fragment>
#include <logdepthbuf_pars_fragment>
#include <clipping_planes_pars_fragment>
void main() {
	vec4 diffuseColor = vec4( diffuse, opacity );
	#include <clipping_planes_fragment>
	#include <logdepthbuf_fragment>
	#include <map_fragment>
	#include <color_fragment>
	#include <alphamap_fragment>
	#include <alphatest_fragment>
	#include <alphahash_fragment>
	#include <specularmap_fragment>
	ReflectedLight reflectedLight = ReflectedLight( vec3( 0.0 ), vec3( 0.0 ), vec3( 0.0 ), vec3( 0.0 ) );
	#ifdef USE_LIGHTMAP
		vec4 lightMapTexel = texture2D( lightMap, vLightMapUv );
		reflectedLight.indirectDiffuse += lightMapTexel.rgb * lightMapIntensity * RECIPROCAL_PI;
	#else
		reflectedLight.indirectDiffuse += vec3( 1.0 );
	#endif
	#include <aomap_fragment>
	reflectedLight.indirectDiffuse *= diffuseColor.rgb;
	vec3 outgoingLight = reflectedLight.indirectDiffuse;
	#include <envmap_fragment>
	#include <opaque_fragment>
	#include <tonemapping_fragment>
	#include <colorspace_fragment>
	#include <fog_fragment>
	#include <premultiplied_alpha_fragment>
	#include <dithering_fragment>
}`,meshlambert_vert:`#define LAMBERT
varying vec3 vViewPosition;
#include <common>
#include <batching_pars_vertex>
#include <uv_pars_vertex>
#include <displacementmap_pars_vertex>
#include <envmap_pars_vertex>
#include <color_pars_vertex>
#include <fog_pars_vertex>
#include <normal_pars_vertex>
#include <morphtarget_pars_vertex>
#include <skinning_pars_vertex>
#include <shadowmap_pars_vertex>
#include <logdepthbuf_pars_vertex>
#include <clipping_planes_pars_vertex>
void main() {
	#include <uv_vertex>
	#include <color_vertex>
	#include <morphinstance_vertex>
	#include <morphcolor_vertex>
	#include <batching_vertex>
	#include <beginnormal_vertex>
	#include <morphnormal_vertex>
	#include <skinbase_vertex>
	#include <skinnormal_vertex>
	#include <defaultnormal_vertex>
	#include <normal_vertex>
	#include <begin_vertex>
	#include <morphtarget_vertex>
	#include <skinning_vertex>
	#include <displacementmap_vertex>
	#include <project_vertex>
	#include <logdepthbuf_vertex>
	#include <clipping_planes_vertex>
	vViewPosition = - mvPosition.xyz;
	#include <worldpos_vertex>
	#include <envmap_vertex>
	#include <shadowmap_vertex>
	#include <fog_vertex>
}`,meshlambert_frag:`#define LAMBERT
uniform vec3 diffuse;
uniform vec3 emissive;
uniform float opacity;
#include <common>
#include <dithering_pars_fragment>
#include <color_pars_fragment>
#include <uv_pars_fragment>
#include <map_pars_fragment>
#include <alphamap_pars_fragment>
#include <alphatest_pars_fragment>
#include <alphahash_pars_fragment>
#include <aomap_pars_fragment>
#include <lightmap_pars_fragment>
#include <emissivemap_pars_fragment>
#include <envmap_common_pars_fragment>
#include <envmap_pars_fragment>
#include <envmap_physical_pars_fragment>
#include <fog_pars_fragment>
#include <bsdfs>
#include <lights_pars_begin>
#include <normal_pars_fragment>
#include <lights_lambert_pars_fragment>
#include <shadowmap_pars_fragment>
#include <bumpmap_pars_fragment>
#include <normalmap_pars_fragment>
#include <specularmap_pars_fragment>
#include <logdepthbuf_pars_fragment>
#include <clipping_planes_pars_fragment>
void main() {
	vec4 diffuseColor = vec4( diffuse, opacity );
	#include <clipping_planes_fragment>
	ReflectedLight reflectedLight = ReflectedLight( vec3( 0.0 ), vec3( 0.0 ), vec3( 0.0 ), vec3( 0.0 ) );
	vec3 totalEmissiveRadiance = emissive;
	#include <logdepthbuf_fragment>
	#include <map_fragment>
	#include <color_fragment>
	#include <alphamap_fragment>
	#include <alphatest_fragment>
	#include <alphahash_fragment>
	#include <specularmap_fragment>
	#include <normal_fragment_begin>
	#include <normal_fragment_maps>
	#include <emissivemap_fragment>
	#include <lights_lambert_fragment>
	#include <lights_fragment_begin>
	#include <lights_fragment_maps>
	#include <lights_fragment_end>
	#include <aomap_fragment>
	vec3 outgoingLight = reflectedLight.directDiffuse + reflectedLight.indirectDiffuse + totalEmissiveRadiance;
	#include <envmap_fragment>
	#include <opaque_fragment>
	#include <tonemapping_fragment>
	#include <colorspace_fragment>
	#include <fog_fragment>
	#include <premultiplied_alpha_fragment>
	#include <dithering_fragment>
}`,meshmatcap_vert:`#define MATCAP
varying vec3 vViewPosition;
#include <common>
#include <batching_pars_vertex>
#include <uv_pars_vertex>
#include <color_pars_vertex>
#include <displacementmap_pars_vertex>
#include <fog_pars_vertex>
#include <normal_pars_vertex>
#include <morphtarget_pars_vertex>
#include <skinning_pars_vertex>
#include <logdepthbuf_pars_vertex>
#include <clipping_planes_pars_vertex>
void main() {
	#include <uv_vertex>
	#include <color_vertex>
	#include <morphinstance_vertex>
	#include <morphcolor_vertex>
	#include <batching_vertex>
	#include <beginnormal_vertex>
	#include <morphnormal_vertex>
	#include <skinbase_vertex>
	#include <skinnormal_vertex>
	#include <defaultnormal_vertex>
	#include <normal_vertex>
	#include <begin_vertex>
	#include <morphtarget_vertex>
	#include <skinning_vertex>
	#include <displacementmap_vertex>
	#include <project_vertex>
	#include <logdepthbuf_vertex>
	#include <clipping_planes_vertex>
	#include <fog_vertex>
	vViewPosition = - mvPosition.xyz;
}`,meshmatcap_frag:`#define MATCAP
uniform vec3 diffuse;
uniform float opacity;
uniform sampler2D matcap;
varying vec3 vViewPosition;
#include <common>
#include <dithering_pars_fragment>
#include <color_pars_fragment>
#include <uv_pars_fragment>
#include <map_pars_fragment>
#include <alphamap_pars_fragment>
#include <alphatest_pars_fragment>
#include <alphahash_pars_fragment>
#include <fog_pars_fragment>
#include <normal_pars_fragment>
#include <bumpmap_pars_fragment>
#include <normalmap_pars_fragment>
#include <logdepthbuf_pars_fragment>
#include <clipping_planes_pars_fragment>
void main() {
	vec4 diffuseColor = vec4( diffuse, opacity );
	#include <clipping_planes_fragment>
	#include <logdepthbuf_fragment>
	#include <map_fragment>
	#include <color_fragment>
	#include <alphamap_fragment>
	#include <alphatest_fragment>
	#include <alphahash_fragment>
	#include <normal_fragment_begin>
	#include <normal_fragment_maps>
	vec3 viewDir = normalize( vViewPosition );
	vec3 x = normalize( vec3( viewDir.z, 0.0, - viewDir.x ) );
	vec3 y = cross( viewDir, x );
	vec2 uv = vec2( dot( x, normal ), dot( y, normal ) ) * 0.495 + 0.5;
	#ifdef USE_MATCAP
		vec4 matcapColor = texture2D( matcap, uv );
	#else
		vec4 matcapColor = vec4( vec3( mix( 0.2, 0.8, uv.y ) ), 1.0 );
	#endif
	vec3 outgoingLight = diffuseColor.rgb * matcapColor.rgb;
	#include <opaque_fragment>
	#include <tonemapping_fragment>
	#include <colorspace_fragment>
	#include <fog_fragment>
	#include <premultiplied_alpha_fragment>
	#include <dithering_fragment>
}`,meshnormal_vert:`#define NORMAL
#if defined( FLAT_SHADED ) || defined( USE_BUMPMAP ) || defined( USE_NORMALMAP_TANGENTSPACE )
	varying vec3 vViewPosition;
#endif
#include <common>
#include <batching_pars_vertex>
#include <uv_pars_vertex>
#include <displacementmap_pars_vertex>
#include <normal_pars_vertex>
#include <morphtarget_pars_vertex>
#include <skinning_pars_vertex>
#include <logdepthbuf_pars_vertex>
#include <clipping_planes_pars_vertex>
void main() {
	#include <uv_vertex>
	#include <batching_vertex>
	#include <beginnormal_vertex>
	#include <morphinstance_vertex>
	#include <morphnormal_vertex>
	#include <skinbase_vertex>
	#include <skinnormal_vertex>
	#include <defaultnormal_vertex>
	#include <normal_vertex>
	#include <begin_vertex>
	#include <morphtarget_vertex>
	#include <skinning_vertex>
	#include <displacementmap_vertex>
	#include <project_vertex>
	#include <logdepthbuf_vertex>
	#include <clipping_planes_vertex>
#if defined( FLAT_SHADED ) || defined( USE_BUMPMAP ) || defined( USE_NORMALMAP_TANGENTSPACE )
	vViewPosition = - mvPosition.xyz;
#endif
}`,meshnormal_frag:`#define NORMAL
uniform float opacity;
#if defined( FLAT_SHADED ) || defined( USE_BUMPMAP ) || defined( USE_NORMALMAP_TANGENTSPACE )
	varying vec3 vViewPosition;
#endif
#include <uv_pars_fragment>
#include <normal_pars_fragment>
#include <bumpmap_pars_fragment>
#include <normalmap_pars_fragment>
#include <logdepthbuf_pars_fragment>
#include <clipping_planes_pars_fragment>
void main() {
	vec4 diffuseColor = vec4( 0.0, 0.0, 0.0, opacity );
	#include <clipping_planes_fragment>
	#include <logdepthbuf_fragment>
	#include <normal_fragment_begin>
	#include <normal_fragment_maps>
	gl_FragColor = vec4( normalize( normal ) * 0.5 + 0.5, diffuseColor.a );
	#ifdef OPAQUE
		gl_FragColor.a = 1.0;
	#endif
}`,meshphong_vert:`#define PHONG
varying vec3 vViewPosition;
#include <common>
#include <batching_pars_vertex>
#include <uv_pars_vertex>
#include <displacementmap_pars_vertex>
#include <envmap_pars_vertex>
#include <color_pars_vertex>
#include <fog_pars_vertex>
#include <normal_pars_vertex>
#include <morphtarget_pars_vertex>
#include <skinning_pars_vertex>
#include <shadowmap_pars_vertex>
#include <logdepthbuf_pars_vertex>
#include <clipping_planes_pars_vertex>
void main() {
	#include <uv_vertex>
	#include <color_vertex>
	#include <morphcolor_vertex>
	#include <batching_vertex>
	#include <beginnormal_vertex>
	#include <morphinstance_vertex>
	#include <morphnormal_vertex>
	#include <skinbase_vertex>
	#include <skinnormal_vertex>
	#include <defaultnormal_vertex>
	#include <normal_vertex>
	#include <begin_vertex>
	#include <morphtarget_vertex>
	#include <skinning_vertex>
	#include <displacementmap_vertex>
	#include <project_vertex>
	#include <logdepthbuf_vertex>
	#include <clipping_planes_vertex>
	vViewPosition = - mvPosition.xyz;
	#include <worldpos_vertex>
	#include <envmap_vertex>
	#include <shadowmap_vertex>
	#include <fog_vertex>
}`,meshphong_frag:`#define PHONG
uniform vec3 diffuse;
uniform vec3 emissive;
uniform vec3 specular;
uniform float shininess;
uniform float opacity;
#include <common>
#include <dithering_pars_fragment>
#include <color_pars_fragment>
#include <uv_pars_fragment>
#include <map_pars_fragment>
#include <alphamap_pars_fragment>
#include <alphatest_pars_fragment>
#include <alphahash_pars_fragment>
#include <aomap_pars_fragment>
#include <lightmap_pars_fragment>
#include <emissivemap_pars_fragment>
#include <envmap_common_pars_fragment>
#include <envmap_pars_fragment>
#include <envmap_physical_pars_fragment>
#include <fog_pars_fragment>
#include <bsdfs>
#include <lights_pars_begin>
#include <normal_pars_fragment>
#include <lights_phong_pars_fragment>
#include <shadowmap_pars_fragment>
#include <bumpmap_pars_fragment>
#include <normalmap_pars_fragment>
#include <specularmap_pars_fragment>
#include <logdepthbuf_pars_fragment>
#include <clipping_planes_pars_fragment>
void main() {
	vec4 diffuseColor = vec4( diffuse, opacity );
	#include <clipping_planes_fragment>
	ReflectedLight reflectedLight = ReflectedLight( vec3( 0.0 ), vec3( 0.0 ), vec3( 0.0 ), vec3( 0.0 ) );
	vec3 totalEmissiveRadiance = emissive;
	#include <logdepthbuf_fragment>
	#include <map_fragment>
	#include <color_fragment>
	#include <alphamap_fragment>
	#include <alphatest_fragment>
	#include <alphahash_fragment>
	#include <specularmap_fragment>
	#include <normal_fragment_begin>
	#include <normal_fragment_maps>
	#include <emissivemap_fragment>
	#include <lights_phong_fragment>
	#include <lights_fragment_begin>
	#include <lights_fragment_maps>
	#include <lights_fragment_end>
	#include <aomap_fragment>
	vec3 outgoingLight = reflectedLight.directDiffuse + reflectedLight.indirectDiffuse + reflectedLight.directSpecular + reflectedLight.indirectSpecular + totalEmissiveRadiance;
	#include <envmap_fragment>
	#include <opaque_fragment>
	#include <tonemapping_fragment>
	#include <colorspace_fragment>
	#include <fog_fragment>
	#include <premultiplied_alpha_fragment>
	#include <dithering_fragment>
}`,meshphysical_vert:`#define STANDARD
varying vec3 vViewPosition;
#ifdef USE_TRANSMISSION
	varying vec3 vWorldPosition;
#endif
#include <common>
#include <batching_pars_vertex>
#include <uv_pars_vertex>
#include <displacementmap_pars_vertex>
#include <color_pars_vertex>
#include <fog_pars_vertex>
#include <normal_pars_vertex>
#include <morphtarget_pars_vertex>
#include <skinning_pars_vertex>
#include <shadowmap_pars_vertex>
#include <logdepthbuf_pars_vertex>
#include <clipping_planes_pars_vertex>
void main() {
	#include <uv_vertex>
	#include <color_vertex>
	#include <morphinstance_vertex>
	#include <morphcolor_vertex>
	#include <batching_vertex>
	#include <beginnormal_vertex>
	#include <morphnormal_vertex>
	#include <skinbase_vertex>
	#include <skinnormal_vertex>
	#include <defaultnormal_vertex>
	#include <normal_vertex>
	#include <begin_vertex>
	#include <morphtarget_vertex>
	#include <skinning_vertex>
	#include <displacementmap_vertex>
	#include <project_vertex>
	#include <logdepthbuf_vertex>
	#include <clipping_planes_vertex>
	vViewPosition = - mvPosition.xyz;
	#include <worldpos_vertex>
	#include <shadowmap_vertex>
	#include <fog_vertex>
#ifdef USE_TRANSMISSION
	vWorldPosition = worldPosition.xyz;
#endif
}`,meshphysical_frag:`#define STANDARD
#ifdef PHYSICAL
	#define IOR
	#define USE_SPECULAR
#endif
uniform vec3 diffuse;
uniform vec3 emissive;
uniform float roughness;
uniform float metalness;
uniform float opacity;
#ifdef IOR
	uniform float ior;
#endif
#ifdef USE_SPECULAR
	uniform float specularIntensity;
	uniform vec3 specularColor;
	#ifdef USE_SPECULAR_COLORMAP
		uniform sampler2D specularColorMap;
	#endif
	#ifdef USE_SPECULAR_INTENSITYMAP
		uniform sampler2D specularIntensityMap;
	#endif
#endif
#ifdef USE_CLEARCOAT
	uniform float clearcoat;
	uniform float clearcoatRoughness;
#endif
#ifdef USE_DIFFUSE_ROUGHNESS
	uniform float diffuseRoughness;
	#ifdef USE_DIFFUSE_ROUGHNESSMAP
		uniform sampler2D diffuseRoughnessMap;
	#endif
#endif
#ifdef USE_DISPERSION
	uniform float dispersion;
#endif
#ifdef USE_RETROREFLECTION
	uniform float retroreflectivity;
#endif
#ifdef USE_IRIDESCENCE
	uniform float iridescence;
	uniform float iridescenceIOR;
	uniform float iridescenceThicknessMinimum;
	uniform float iridescenceThicknessMaximum;
#endif
#ifdef USE_SHEEN
	uniform vec3 sheenColor;
	uniform float sheenRoughness;
	#ifdef USE_SHEEN_COLORMAP
		uniform sampler2D sheenColorMap;
	#endif
	#ifdef USE_SHEEN_ROUGHNESSMAP
		uniform sampler2D sheenRoughnessMap;
	#endif
#endif
#ifdef USE_ANISOTROPY
	uniform vec2 anisotropyVector;
	#ifdef USE_ANISOTROPYMAP
		uniform sampler2D anisotropyMap;
	#endif
#endif
varying vec3 vViewPosition;
#include <common>
#include <dithering_pars_fragment>
#include <color_pars_fragment>
#include <uv_pars_fragment>
#include <map_pars_fragment>
#include <alphamap_pars_fragment>
#include <alphatest_pars_fragment>
#include <alphahash_pars_fragment>
#include <aomap_pars_fragment>
#include <lightmap_pars_fragment>
#include <emissivemap_pars_fragment>
#include <iridescence_fragment>
#include <envmap_common_pars_fragment>
#include <envmap_physical_pars_fragment>
#include <fog_pars_fragment>
#include <lights_pars_begin>
#include <normal_pars_fragment>
#include <lights_physical_pars_fragment>
#include <transmission_pars_fragment>
#include <shadowmap_pars_fragment>
#include <bumpmap_pars_fragment>
#include <normalmap_pars_fragment>
#include <clearcoat_pars_fragment>
#include <iridescence_pars_fragment>
#include <roughnessmap_pars_fragment>
#include <metalnessmap_pars_fragment>
#include <logdepthbuf_pars_fragment>
#include <clipping_planes_pars_fragment>
void main() {
	vec4 diffuseColor = vec4( diffuse, opacity );
	#include <clipping_planes_fragment>
	ReflectedLight reflectedLight = ReflectedLight( vec3( 0.0 ), vec3( 0.0 ), vec3( 0.0 ), vec3( 0.0 ) );
	vec3 totalEmissiveRadiance = emissive;
	#include <logdepthbuf_fragment>
	#include <map_fragment>
	#include <color_fragment>
	#include <alphamap_fragment>
	#include <alphatest_fragment>
	#include <alphahash_fragment>
	#include <roughnessmap_fragment>
	#include <metalnessmap_fragment>
	#include <normal_fragment_begin>
	#include <normal_fragment_maps>
	#include <clearcoat_normal_fragment_begin>
	#include <clearcoat_normal_fragment_maps>
	#include <emissivemap_fragment>
	#include <lights_physical_fragment>
	#include <lights_fragment_begin>
	#include <lights_fragment_maps>
	#include <lights_fragment_end>
	#include <aomap_fragment>
	vec3 totalDiffuse = reflectedLight.directDiffuse + reflectedLight.indirectDiffuse;
	vec3 totalSpecular = reflectedLight.directSpecular + reflectedLight.indirectSpecular;
	#include <transmission_fragment>
	vec3 outgoingLight = totalDiffuse + totalSpecular + totalEmissiveRadiance;
	#ifdef USE_SHEEN
 
		outgoingLight = outgoingLight + sheenSpecularDirect + sheenSpecularIndirect;
 
 	#endif
	#ifdef USE_CLEARCOAT
		float dotNVcc = saturate( dot( geometryClearcoatNormal, geometryViewDir ) );
		vec3 Fcc = F_Schlick( material.clearcoatF0, material.clearcoatF90, dotNVcc );
		outgoingLight = outgoingLight * ( 1.0 - material.clearcoat * Fcc ) + ( clearcoatSpecularDirect + clearcoatSpecularIndirect ) * material.clearcoat;
	#endif
	#include <opaque_fragment>
	#include <tonemapping_fragment>
	#include <colorspace_fragment>
	#include <fog_fragment>
	#include <premultiplied_alpha_fragment>
	#include <dithering_fragment>
}`,meshtoon_vert:`#define TOON
varying vec3 vViewPosition;
#include <common>
#include <batching_pars_vertex>
#include <uv_pars_vertex>
#include <displacementmap_pars_vertex>
#include <color_pars_vertex>
#include <fog_pars_vertex>
#include <normal_pars_vertex>
#include <morphtarget_pars_vertex>
#include <skinning_pars_vertex>
#include <shadowmap_pars_vertex>
#include <logdepthbuf_pars_vertex>
#include <clipping_planes_pars_vertex>
void main() {
	#include <uv_vertex>
	#include <color_vertex>
	#include <morphinstance_vertex>
	#include <morphcolor_vertex>
	#include <batching_vertex>
	#include <beginnormal_vertex>
	#include <morphnormal_vertex>
	#include <skinbase_vertex>
	#include <skinnormal_vertex>
	#include <defaultnormal_vertex>
	#include <normal_vertex>
	#include <begin_vertex>
	#include <morphtarget_vertex>
	#include <skinning_vertex>
	#include <displacementmap_vertex>
	#include <project_vertex>
	#include <logdepthbuf_vertex>
	#include <clipping_planes_vertex>
	vViewPosition = - mvPosition.xyz;
	#include <worldpos_vertex>
	#include <shadowmap_vertex>
	#include <fog_vertex>
}`,meshtoon_frag:`#define TOON
uniform vec3 diffuse;
uniform vec3 emissive;
uniform float opacity;
#include <common>
#include <dithering_pars_fragment>
#include <color_pars_fragment>
#include <uv_pars_fragment>
#include <map_pars_fragment>
#include <alphamap_pars_fragment>
#include <alphatest_pars_fragment>
#include <alphahash_pars_fragment>
#include <aomap_pars_fragment>
#include <lightmap_pars_fragment>
#include <emissivemap_pars_fragment>
#include <gradientmap_pars_fragment>
#include <fog_pars_fragment>
#include <bsdfs>
#include <lights_pars_begin>
#include <normal_pars_fragment>
#include <lights_toon_pars_fragment>
#include <shadowmap_pars_fragment>
#include <bumpmap_pars_fragment>
#include <normalmap_pars_fragment>
#include <logdepthbuf_pars_fragment>
#include <clipping_planes_pars_fragment>
void main() {
	vec4 diffuseColor = vec4( diffuse, opacity );
	#include <clipping_planes_fragment>
	ReflectedLight reflectedLight = ReflectedLight( vec3( 0.0 ), vec3( 0.0 ), vec3( 0.0 ), vec3( 0.0 ) );
	vec3 totalEmissiveRadiance = emissive;
	#include <logdepthbuf_fragment>
	#include <map_fragment>
	#include <color_fragment>
	#include <alphamap_fragment>
	#include <alphatest_fragment>
	#include <alphahash_fragment>
	#include <normal_fragment_begin>
	#include <normal_fragment_maps>
	#include <emissivemap_fragment>
	#include <lights_toon_fragment>
	#include <lights_fragment_begin>
	#include <lights_fragment_maps>
	#include <lights_fragment_end>
	#include <aomap_fragment>
	vec3 outgoingLight = reflectedLight.directDiffuse + reflectedLight.indirectDiffuse + totalEmissiveRadiance;
	#include <opaque_fragment>
	#include <tonemapping_fragment>
	#include <colorspace_fragment>
	#include <fog_fragment>
	#include <premultiplied_alpha_fragment>
	#include <dithering_fragment>
}`,points_vert:`uniform float size;
uniform float scale;
#include <common>
#include <color_pars_vertex>
#include <fog_pars_vertex>
#include <morphtarget_pars_vertex>
#include <logdepthbuf_pars_vertex>
#include <clipping_planes_pars_vertex>
#ifdef USE_POINTS_UV
	varying vec2 vUv;
	uniform mat3 uvTransform;
#endif
void main() {
	#ifdef USE_POINTS_UV
		vUv = ( uvTransform * vec3( uv, 1 ) ).xy;
	#endif
	#include <color_vertex>
	#include <morphinstance_vertex>
	#include <morphcolor_vertex>
	#include <begin_vertex>
	#include <morphtarget_vertex>
	#include <project_vertex>
	gl_PointSize = size;
	#ifdef USE_SIZEATTENUATION
		bool isPerspective = isPerspectiveMatrix( projectionMatrix );
		if ( isPerspective ) gl_PointSize *= ( scale / - mvPosition.z );
	#endif
	#include <logdepthbuf_vertex>
	#include <clipping_planes_vertex>
	#include <worldpos_vertex>
	#include <fog_vertex>
}`,points_frag:`uniform vec3 diffuse;
uniform float opacity;
#include <common>
#include <color_pars_fragment>
#include <map_particle_pars_fragment>
#include <alphatest_pars_fragment>
#include <alphahash_pars_fragment>
#include <fog_pars_fragment>
#include <logdepthbuf_pars_fragment>
#include <clipping_planes_pars_fragment>
void main() {
	vec4 diffuseColor = vec4( diffuse, opacity );
	#include <clipping_planes_fragment>
	vec3 outgoingLight = vec3( 0.0 );
	#include <logdepthbuf_fragment>
	#include <map_particle_fragment>
	#include <color_fragment>
	#include <alphatest_fragment>
	#include <alphahash_fragment>
	outgoingLight = diffuseColor.rgb;
	#include <opaque_fragment>
	#include <tonemapping_fragment>
	#include <colorspace_fragment>
	#include <fog_fragment>
	#include <premultiplied_alpha_fragment>
}`,shadow_vert:`#include <common>
#include <batching_pars_vertex>
#include <fog_pars_vertex>
#include <morphtarget_pars_vertex>
#include <skinning_pars_vertex>
#include <logdepthbuf_pars_vertex>
#include <shadowmap_pars_vertex>
void main() {
	#include <batching_vertex>
	#include <beginnormal_vertex>
	#include <morphinstance_vertex>
	#include <morphnormal_vertex>
	#include <skinbase_vertex>
	#include <skinnormal_vertex>
	#include <defaultnormal_vertex>
	#include <begin_vertex>
	#include <morphtarget_vertex>
	#include <skinning_vertex>
	#include <project_vertex>
	#include <logdepthbuf_vertex>
	#include <worldpos_vertex>
	#include <shadowmap_vertex>
	#include <fog_vertex>
}`,shadow_frag:`uniform vec3 color;
uniform float opacity;
#include <common>
#include <fog_pars_fragment>
#include <bsdfs>
#include <lights_pars_begin>
#include <logdepthbuf_pars_fragment>
#include <shadowmap_pars_fragment>
#include <shadowmask_pars_fragment>
void main() {
	#include <logdepthbuf_fragment>
	gl_FragColor = vec4( color, opacity * ( 1.0 - getShadowMask() ) );
	#include <tonemapping_fragment>
	#include <colorspace_fragment>
	#include <fog_fragment>
	#include <premultiplied_alpha_fragment>
}`,sprite_vert:`uniform float rotation;
uniform vec2 center;
#include <common>
#include <uv_pars_vertex>
#include <fog_pars_vertex>
#include <logdepthbuf_pars_vertex>
#include <clipping_planes_pars_vertex>
void main() {
	#include <uv_vertex>
	vec4 mvPosition = modelViewMatrix[ 3 ];
	vec2 scale = vec2( length( modelMatrix[ 0 ].xyz ), length( modelMatrix[ 1 ].xyz ) );
	#ifndef USE_SIZEATTENUATION
		bool isPerspective = isPerspectiveMatrix( projectionMatrix );
		if ( isPerspective ) scale *= - mvPosition.z;
	#endif
	vec2 alignedPosition = ( position.xy - ( center - vec2( 0.5 ) ) ) * scale;
	vec2 rotatedPosition;
	rotatedPosition.x = cos( rotation ) * alignedPosition.x - sin( rotation ) * alignedPosition.y;
	rotatedPosition.y = sin( rotation ) * alignedPosition.x + cos( rotation ) * alignedPosition.y;
	mvPosition.xy += rotatedPosition;
	gl_Position = projectionMatrix * mvPosition;
	#include <logdepthbuf_vertex>
	#include <clipping_planes_vertex>
	#include <fog_vertex>
}`,sprite_frag:`uniform vec3 diffuse;
uniform float opacity;
#include <common>
#include <uv_pars_fragment>
#include <map_pars_fragment>
#include <alphamap_pars_fragment>
#include <alphatest_pars_fragment>
#include <alphahash_pars_fragment>
#include <fog_pars_fragment>
#include <logdepthbuf_pars_fragment>
#include <clipping_planes_pars_fragment>
void main() {
	vec4 diffuseColor = vec4( diffuse, opacity );
	#include <clipping_planes_fragment>
	vec3 outgoingLight = vec3( 0.0 );
	#include <logdepthbuf_fragment>
	#include <map_fragment>
	#include <alphamap_fragment>
	#include <alphatest_fragment>
	#include <alphahash_fragment>
	outgoingLight = diffuseColor.rgb;
	#include <opaque_fragment>
	#include <tonemapping_fragment>
	#include <colorspace_fragment>
	#include <fog_fragment>
}`},$={common:{diffuse:{value:new $o(16777215)},opacity:{value:1},map:{value:null},mapTransform:{value:new Z},alphaMap:{value:null},alphaMapTransform:{value:new Z},alphaTest:{value:0}},specularmap:{specularMap:{value:null},specularMapTransform:{value:new Z}},envmap:{envMap:{value:null},envMapRotation:{value:new Z},reflectivity:{value:1},ior:{value:1.5},refractionRatio:{value:.98},dfgLUT:{value:null}},aomap:{aoMap:{value:null},aoMapIntensity:{value:1},aoMapTransform:{value:new Z}},lightmap:{lightMap:{value:null},lightMapIntensity:{value:1},lightMapTransform:{value:new Z}},bumpmap:{bumpMap:{value:null},bumpMapTransform:{value:new Z},bumpScale:{value:1}},normalmap:{normalMap:{value:null},normalMapTransform:{value:new Z},normalScale:{value:new Y(1,1)}},displacementmap:{displacementMap:{value:null},displacementMapTransform:{value:new Z},displacementScale:{value:1},displacementBias:{value:0}},emissivemap:{emissiveMap:{value:null},emissiveMapTransform:{value:new Z}},metalnessmap:{metalnessMap:{value:null},metalnessMapTransform:{value:new Z}},roughnessmap:{roughnessMap:{value:null},roughnessMapTransform:{value:new Z}},gradientmap:{gradientMap:{value:null}},fog:{fogDensity:{value:25e-5},fogNear:{value:1},fogFar:{value:2e3},fogColor:{value:new $o(16777215)}},lights:{ambientLightColor:{value:[]},lightProbe:{value:[]},sunLights:{value:[],properties:{direction:{},color:{}}},sunLightShadows:{value:[],properties:{shadowIntensity:1,shadowBias:{},shadowNormalBias:{},shadowRadius:{},shadowMapSize:{}}},sunShadowMatrix:{value:[]},sunShadowCascade:{value:[]},directionalLights:{value:[],properties:{direction:{},color:{}}},directionalLightShadows:{value:[],properties:{shadowIntensity:1,shadowBias:{},shadowNormalBias:{},shadowRadius:{},shadowMapSize:{}}},directionalShadowMatrix:{value:[]},spotLights:{value:[],properties:{color:{},position:{},direction:{},distance:{},coneCos:{},penumbraCos:{},decay:{}}},spotLightShadows:{value:[],properties:{shadowIntensity:1,shadowBias:{},shadowNormalBias:{},shadowRadius:{},shadowMapSize:{}}},spotLightMap:{value:[]},spotLightMatrix:{value:[]},pointLights:{value:[],properties:{color:{},position:{},decay:{},distance:{}}},pointLightShadows:{value:[],properties:{shadowIntensity:1,shadowBias:{},shadowNormalBias:{},shadowRadius:{},shadowMapSize:{},shadowCameraNear:{},shadowCameraFar:{}}},pointShadowMatrix:{value:[]},hemisphereLights:{value:[],properties:{direction:{},skyColor:{},groundColor:{}}},rectAreaLights:{value:[],properties:{color:{},position:{},width:{},height:{}}},ltc_1:{value:null},ltc_2:{value:null},probesSH:{value:[]},probesMin:{value:[]},probesMax:{value:[]},probesResolution:{value:[]}},points:{diffuse:{value:new $o(16777215)},opacity:{value:1},size:{value:1},scale:{value:1},map:{value:null},alphaMap:{value:null},alphaMapTransform:{value:new Z},alphaTest:{value:0},uvTransform:{value:new Z}},sprite:{diffuse:{value:new $o(16777215)},opacity:{value:1},center:{value:new Y(.5,.5)},rotation:{value:0},map:{value:null},mapTransform:{value:new Z},alphaMap:{value:null},alphaMapTransform:{value:new Z},alphaTest:{value:0}}},bu={basic:{uniforms:qc([$.common,$.specularmap,$.envmap,$.aomap,$.lightmap,$.fog]),vertexShader:Q.meshbasic_vert,fragmentShader:Q.meshbasic_frag},lambert:{uniforms:qc([$.common,$.specularmap,$.envmap,$.aomap,$.lightmap,$.emissivemap,$.bumpmap,$.normalmap,$.displacementmap,$.fog,$.lights,{emissive:{value:new $o(0)},envMapIntensity:{value:1}}]),vertexShader:Q.meshlambert_vert,fragmentShader:Q.meshlambert_frag},phong:{uniforms:qc([$.common,$.specularmap,$.envmap,$.aomap,$.lightmap,$.emissivemap,$.bumpmap,$.normalmap,$.displacementmap,$.fog,$.lights,{emissive:{value:new $o(0)},specular:{value:new $o(1118481)},shininess:{value:30},envMapIntensity:{value:1}}]),vertexShader:Q.meshphong_vert,fragmentShader:Q.meshphong_frag},standard:{uniforms:qc([$.common,$.envmap,$.aomap,$.lightmap,$.emissivemap,$.bumpmap,$.normalmap,$.displacementmap,$.roughnessmap,$.metalnessmap,$.fog,$.lights,{emissive:{value:new $o(0)},roughness:{value:1},metalness:{value:0},envMapIntensity:{value:1}}]),vertexShader:Q.meshphysical_vert,fragmentShader:Q.meshphysical_frag},toon:{uniforms:qc([$.common,$.aomap,$.lightmap,$.emissivemap,$.bumpmap,$.normalmap,$.displacementmap,$.gradientmap,$.fog,$.lights,{emissive:{value:new $o(0)}}]),vertexShader:Q.meshtoon_vert,fragmentShader:Q.meshtoon_frag},matcap:{uniforms:qc([$.common,$.bumpmap,$.normalmap,$.displacementmap,$.fog,{matcap:{value:null}}]),vertexShader:Q.meshmatcap_vert,fragmentShader:Q.meshmatcap_frag},points:{uniforms:qc([$.points,$.fog]),vertexShader:Q.points_vert,fragmentShader:Q.points_frag},dashed:{uniforms:qc([$.common,$.fog,{scale:{value:1},dashSize:{value:1},totalSize:{value:2}}]),vertexShader:Q.linedashed_vert,fragmentShader:Q.linedashed_frag},depth:{uniforms:qc([$.common,$.displacementmap]),vertexShader:Q.depth_vert,fragmentShader:Q.depth_frag},normal:{uniforms:qc([$.common,$.bumpmap,$.normalmap,$.displacementmap,{opacity:{value:1}}]),vertexShader:Q.meshnormal_vert,fragmentShader:Q.meshnormal_frag},sprite:{uniforms:qc([$.sprite,$.fog]),vertexShader:Q.sprite_vert,fragmentShader:Q.sprite_frag},background:{uniforms:{uvTransform:{value:new Z},t2D:{value:null},backgroundIntensity:{value:1}},vertexShader:Q.background_vert,fragmentShader:Q.background_frag},backgroundCube:{uniforms:{envMap:{value:null},backgroundBlurriness:{value:0},backgroundIntensity:{value:1},backgroundRotation:{value:new Z}},vertexShader:Q.backgroundCube_vert,fragmentShader:Q.backgroundCube_frag},cube:{uniforms:{tCube:{value:null},tFlip:{value:-1},opacity:{value:1}},vertexShader:Q.cube_vert,fragmentShader:Q.cube_frag},equirect:{uniforms:{tEquirect:{value:null}},vertexShader:Q.equirect_vert,fragmentShader:Q.equirect_frag},distance:{uniforms:qc([$.common,$.displacementmap,{referencePosition:{value:new X},nearDistance:{value:1},farDistance:{value:1e3}}]),vertexShader:Q.distance_vert,fragmentShader:Q.distance_frag},shadow:{uniforms:qc([$.lights,$.fog,{color:{value:new $o(0)},opacity:{value:1}}]),vertexShader:Q.shadow_vert,fragmentShader:Q.shadow_frag}};bu.physical={uniforms:qc([bu.standard.uniforms,{clearcoat:{value:0},clearcoatMap:{value:null},clearcoatMapTransform:{value:new Z},clearcoatNormalMap:{value:null},clearcoatNormalMapTransform:{value:new Z},clearcoatNormalScale:{value:new Y(1,1)},clearcoatRoughness:{value:0},clearcoatRoughnessMap:{value:null},clearcoatRoughnessMapTransform:{value:new Z},diffuseRoughness:{value:0},diffuseRoughnessMap:{value:null},diffuseRoughnessMapTransform:{value:new Z},dispersion:{value:0},retroreflectivity:{value:0},iridescence:{value:0},iridescenceMap:{value:null},iridescenceMapTransform:{value:new Z},iridescenceIOR:{value:1.3},iridescenceThicknessMinimum:{value:100},iridescenceThicknessMaximum:{value:400},iridescenceThicknessMap:{value:null},iridescenceThicknessMapTransform:{value:new Z},sheen:{value:0},sheenColor:{value:new $o(0)},sheenColorMap:{value:null},sheenColorMapTransform:{value:new Z},sheenRoughness:{value:1},sheenRoughnessMap:{value:null},sheenRoughnessMapTransform:{value:new Z},transmission:{value:0},transmissionMap:{value:null},transmissionMapTransform:{value:new Z},transmissionSamplerSize:{value:new Y},transmissionSamplerMap:{value:null},thickness:{value:0},thicknessMap:{value:null},thicknessMapTransform:{value:new Z},attenuationDistance:{value:0},attenuationColor:{value:new $o(0)},specularColor:{value:new $o(1,1,1)},specularColorMap:{value:null},specularColorMapTransform:{value:new Z},specularIntensity:{value:1},specularIntensityMap:{value:null},specularIntensityMapTransform:{value:new Z},anisotropyVector:{value:new Y},anisotropyMap:{value:null},anisotropyMapTransform:{value:new Z}}]),vertexShader:Q.meshphysical_vert,fragmentShader:Q.meshphysical_frag};var xu={r:0,b:0,g:0},Su=new vo,Cu=new Z;Cu.set(-1,0,0,0,1,0,0,0,1);function wu(e,t,n,r,i,a){let o=new $o(0),s=i===!0?0:1,c,l,u=null,d=0,f=null;function p(e){let n=e.isScene===!0?e.background:null;if(n&&n.isTexture){let r=e.backgroundBlurriness>0;n=t.get(n,r)}return n}function m(t){let r=!1,i=p(t);i===null?g(o,s):i&&i.isColor&&(g(i,1),r=!0);let c=e.xr.getEnvironmentBlendMode();c===`additive`?n.buffers.color.setClear(0,0,0,1,a):c===`alpha-blend`&&n.buffers.color.setClear(0,0,0,0,a),(e.autoClear||r)&&(n.buffers.depth.setTest(!0),n.buffers.depth.setMask(!0),n.buffers.color.setMask(!0),e.clear(e.autoClearColor,e.autoClearDepth,e.autoClearStencil))}function h(t,n){let i=p(n);i&&i.isCubeTexture?(l===void 0&&(l=new yc(new Wc(1,1,1),new el({name:`BackgroundCubeMaterial`,uniforms:Kc(bu.backgroundCube.uniforms),vertexShader:bu.backgroundCube.vertexShader,fragmentShader:bu.backgroundCube.fragmentShader,side:1,depthTest:!1,depthWrite:!1,fog:!1,allowOverride:!1})),l.geometry.deleteAttribute(`normal`),l.geometry.deleteAttribute(`uv`),l.onBeforeRender=function(e,t,n){this.matrixWorld.copyPosition(n.matrixWorld)},Object.defineProperty(l.material,"envMap",{get:function(){return this.uniforms.envMap.value}}),r.update(l)),l.material.uniforms.envMap.value=i,l.material.uniforms.backgroundBlurriness.value=n.backgroundBlurriness,l.material.uniforms.backgroundIntensity.value=n.backgroundIntensity,l.material.uniforms.backgroundRotation.value.setFromMatrix4(Su.makeRotationFromEuler(n.backgroundRotation)).transpose(),i.isRenderTargetTexture===!1&&l.material.uniforms.backgroundRotation.value.premultiply(Cu),l.material.toneMapped=to.getTransfer(i.colorSpace)!==oa,(u!==i||d!==i.version||f!==e.toneMapping)&&(l.material.needsUpdate=!0,u=i,d=i.version,f=e.toneMapping),l.layers.enableAll(),t.unshift(l,l.geometry,l.material,0,0,null)):i&&i.isTexture&&(c===void 0&&(c=new yc(new Gc(2,2),new el({name:`BackgroundMaterial`,uniforms:Kc(bu.background.uniforms),vertexShader:bu.background.vertexShader,fragmentShader:bu.background.fragmentShader,side:0,depthTest:!1,depthWrite:!1,fog:!1,allowOverride:!1})),c.geometry.deleteAttribute(`normal`),Object.defineProperty(c.material,"map",{get:function(){return this.uniforms.t2D.value}}),r.update(c)),c.material.uniforms.t2D.value=i,c.material.uniforms.backgroundIntensity.value=n.backgroundIntensity,c.material.toneMapped=to.getTransfer(i.colorSpace)!==oa,i.matrixAutoUpdate===!0&&i.updateMatrix(),c.material.uniforms.uvTransform.value.copy(i.matrix),(u!==i||d!==i.version||f!==e.toneMapping)&&(c.material.needsUpdate=!0,u=i,d=i.version,f=e.toneMapping),c.layers.enableAll(),t.unshift(c,c.geometry,c.material,0,0,null))}function g(t,r){t.getRGB(xu,Xc(e)),n.buffers.color.setClear(xu.r,xu.g,xu.b,r,a)}function _(){l!==void 0&&(l.geometry.dispose(),l.material.dispose(),l=void 0),c!==void 0&&(c.geometry.dispose(),c.material.dispose(),c=void 0)}return{getClearColor:function(){return o},setClearColor:function(e,t=1){o.set(e),s=t,g(o,s)},getClearAlpha:function(){return s},setClearAlpha:function(e){s=e,g(o,s)},render:m,addToRenderList:h,dispose:_}}function Tu(e,t){let n=e.getParameter(e.MAX_VERTEX_ATTRIBS),r={},i=f(null),a=i,o=!1;function s(n,r,i,s,c){let u=!1,f=d(n,s,i,r);a!==f&&(a=f,l(a.object)),u=p(n,s,i,c),u&&m(n,s,i,c),c!==null&&t.update(c,e.ELEMENT_ARRAY_BUFFER),(u||o)&&(o=!1,b(n,r,i,s),c!==null&&e.bindBuffer(e.ELEMENT_ARRAY_BUFFER,t.get(c).buffer))}function c(){return e.createVertexArray()}function l(t){return e.bindVertexArray(t)}function u(t){return e.deleteVertexArray(t)}function d(e,t,n,i){let a=i.wireframe===!0,o=r[t.id];o===void 0&&(o={},r[t.id]=o);let s=e.isInstancedMesh===!0?e.id:0,l=o[s];l===void 0&&(l={},o[s]=l);let u=l[n.id];u===void 0&&(u={},l[n.id]=u);let d=u[a];return d===void 0&&(d=f(c()),u[a]=d),d}function f(e){let t=[],r=[],i=[];for(let e=0;e<n;e++)t[e]=0,r[e]=0,i[e]=0;return{geometry:null,program:null,wireframe:!1,newAttributes:t,enabledAttributes:r,attributeDivisors:i,object:e,attributes:{},index:null}}function p(e,t,n,r){let i=a.attributes,o=t.attributes,s=0,c=n.getAttributes();for(let t in c)if(c[t].location>=0){let n=i[t],r=o[t];if(r===void 0&&(t===`instanceMatrix`&&e.instanceMatrix&&(r=e.instanceMatrix),t===`instanceColor`&&e.instanceColor&&(r=e.instanceColor)),n===void 0||n.attribute!==r||r&&n.data!==r.data)return!0;s++}return a.attributesNum!==s||a.index!==r}function m(e,t,n,r){let i={},o=t.attributes,s=0,c=n.getAttributes();for(let t in c)if(c[t].location>=0){let n=o[t];n===void 0&&(t===`instanceMatrix`&&e.instanceMatrix&&(n=e.instanceMatrix),t===`instanceColor`&&e.instanceColor&&(n=e.instanceColor));let r={};r.attribute=n,n&&n.data&&(r.data=n.data),i[t]=r,s++}a.attributes=i,a.attributesNum=s,a.index=r}function h(){let e=a.newAttributes;for(let t=0,n=e.length;t<n;t++)e[t]=0}function g(e){_(e,0)}function _(t,n){let r=a.newAttributes,i=a.enabledAttributes,o=a.attributeDivisors;r[t]=1,i[t]===0&&(e.enableVertexAttribArray(t),i[t]=1),o[t]!==n&&(e.vertexAttribDivisor(t,n),o[t]=n)}function v(){let t=a.newAttributes,n=a.enabledAttributes;for(let r=0,i=n.length;r<i;r++)n[r]!==t[r]&&(e.disableVertexAttribArray(r),n[r]=0)}function y(t,n,r,i,a,o,s){s===!0?e.vertexAttribIPointer(t,n,r,a,o):e.vertexAttribPointer(t,n,r,i,a,o)}function b(n,r,i,a){h();let o=a.attributes,s=i.getAttributes(),c=r.defaultAttributeValues;for(let r in s){let i=s[r];if(i.location>=0){let s=o[r];if(s===void 0&&(r===`instanceMatrix`&&n.instanceMatrix&&(s=n.instanceMatrix),r===`instanceColor`&&n.instanceColor&&(s=n.instanceColor)),s!==void 0){let r=s.normalized,o=s.itemSize,c=t.get(s);if(c===void 0)continue;let l=c.buffer,u=c.type,d=c.bytesPerElement,f=u===e.INT||u===e.UNSIGNED_INT||s.gpuType===1013;if(s.isInterleavedBufferAttribute){let t=s.data,c=t.isInterleavedBuffer===!0?t.stride:t.itemSize,p=s.offset;if(t.isInstancedInterleavedBuffer||t.isInstancedBufferAttribute){for(let e=0;e<i.locationSize;e++)_(i.location+e,t.meshPerAttribute);n.isInstancedMesh!==!0&&a._maxInstanceCount===void 0&&(a._maxInstanceCount=t.meshPerAttribute*t.count)}else for(let e=0;e<i.locationSize;e++)g(i.location+e);e.bindBuffer(e.ARRAY_BUFFER,l);for(let e=0;e<i.locationSize;e++)y(i.location+e,o/i.locationSize,u,r,c*d,(p+o/i.locationSize*e)*d,f)}else{if(s.isInstancedBufferAttribute){for(let e=0;e<i.locationSize;e++)_(i.location+e,s.meshPerAttribute);n.isInstancedMesh!==!0&&a._maxInstanceCount===void 0&&(a._maxInstanceCount=s.meshPerAttribute*s.count)}else for(let e=0;e<i.locationSize;e++)g(i.location+e);e.bindBuffer(e.ARRAY_BUFFER,l);for(let e=0;e<i.locationSize;e++)y(i.location+e,o/i.locationSize,u,r,o*d,o/i.locationSize*e*d,f)}}else if(c!==void 0){let t=c[r];if(t!==void 0)switch(t.length){case 2:e.vertexAttrib2fv(i.location,t);break;case 3:e.vertexAttrib3fv(i.location,t);break;case 4:e.vertexAttrib4fv(i.location,t);break;default:e.vertexAttrib1fv(i.location,t)}}}}v()}function x(){T();for(let e in r){let t=r[e];for(let e in t){let n=t[e];for(let e in n){let t=n[e];for(let e in t)u(t[e].object),delete t[e];delete n[e]}}delete r[e]}}function S(e){if(r[e.id]===void 0)return;let t=r[e.id];for(let e in t){let n=t[e];for(let e in n){let t=n[e];for(let e in t)u(t[e].object),delete t[e];delete n[e]}}delete r[e.id]}function C(e){for(let t in r){let n=r[t];for(let t in n){let r=n[t];if(r[e.id]===void 0)continue;let i=r[e.id];for(let e in i)u(i[e].object),delete i[e];delete r[e.id]}}}function w(e){for(let t in r){let n=r[t],i=e.isInstancedMesh===!0?e.id:0,a=n[i];if(a!==void 0){for(let e in a){let t=a[e];for(let e in t)u(t[e].object),delete t[e];delete a[e]}delete n[i],Object.keys(n).length===0&&delete r[t]}}}function T(){E(),o=!0,a!==i&&(a=i,l(a.object))}function E(){i.geometry=null,i.program=null,i.wireframe=!1}return{setup:s,reset:T,resetDefaultState:E,dispose:x,releaseStatesOfGeometry:S,releaseStatesOfObject:w,releaseStatesOfProgram:C,initAttributes:h,enableAttribute:g,disableUnusedAttributes:v}}function Eu(e,t,n){let r;function i(e){r=e}function a(t,i){e.drawArrays(r,t,i),n.update(i,r,1)}function o(t,i,a){a!==0&&(e.drawArraysInstanced(r,t,i,a),n.update(i,r,a))}function s(e,i,a){if(a===0)return;t.get(`WEBGL_multi_draw`).multiDrawArraysWEBGL(r,e,0,i,0,a);let o=0;for(let e=0;e<a;e++)o+=i[e];n.update(o,r,1)}this.setMode=i,this.render=a,this.renderInstances=o,this.renderMultiDraw=s}function Du(e,t,n,r){let i;function a(){if(i!==void 0)return i;if(t.has(`EXT_texture_filter_anisotropic`)===!0){let n=t.get(`EXT_texture_filter_anisotropic`);i=e.getParameter(n.MAX_TEXTURE_MAX_ANISOTROPY_EXT)}else i=0;return i}function o(t){return t===1023||r.convert(t)===e.getParameter(e.IMPLEMENTATION_COLOR_READ_FORMAT)}function s(n){let i=n===1016&&(t.has(`EXT_color_buffer_half_float`)||t.has(`EXT_color_buffer_float`));return!(n!==1009&&n!==1015&&!i&&r.convert(n)!==e.getParameter(e.IMPLEMENTATION_COLOR_READ_TYPE))}function c(t){if(t===`highp`){if(e.getShaderPrecisionFormat(e.VERTEX_SHADER,e.HIGH_FLOAT).precision>0&&e.getShaderPrecisionFormat(e.FRAGMENT_SHADER,e.HIGH_FLOAT).precision>0)return`highp`;t=`mediump`}return t===`mediump`&&e.getShaderPrecisionFormat(e.VERTEX_SHADER,e.MEDIUM_FLOAT).precision>0&&e.getShaderPrecisionFormat(e.FRAGMENT_SHADER,e.MEDIUM_FLOAT).precision>0?`mediump`:`lowp`}let l=n.precision===void 0?`highp`:n.precision,u=c(l);u!==l&&(K(`WebGLRenderer:`,l,`not supported, using`,u,`instead.`),l=u);let d=n.reversedDepthBuffer===!0&&t.has(`EXT_clip_control`),f=n.logarithmicDepthBuffer===!0&&d===!1;n.reversedDepthBuffer===!0&&d===!1&&K(`WebGLRenderer: Unable to use reversed depth buffer due to missing EXT_clip_control extension. Fallback to default depth buffer.`),n.logarithmicDepthBuffer===!0&&d===!0&&K(`WebGLRenderer: Logarithmic depth buffer is ignored when reversed depth buffer is enabled.`);let p=e.getParameter(e.MAX_TEXTURE_IMAGE_UNITS),m=e.getParameter(e.MAX_VERTEX_TEXTURE_IMAGE_UNITS),h=e.getParameter(e.MAX_TEXTURE_SIZE),g=e.getParameter(e.MAX_CUBE_MAP_TEXTURE_SIZE),_=e.getParameter(e.MAX_VERTEX_ATTRIBS),v=e.getParameter(e.MAX_VERTEX_UNIFORM_VECTORS),y=e.getParameter(e.MAX_VARYING_VECTORS),b=e.getParameter(e.MAX_FRAGMENT_UNIFORM_VECTORS),x=e.getParameter(e.MAX_SAMPLES),S=e.getParameter(e.SAMPLES);return{isWebGL2:!0,getMaxAnisotropy:a,getMaxPrecision:c,textureFormatReadable:o,textureTypeReadable:s,precision:l,logarithmicDepthBuffer:f,reversedDepthBuffer:d,maxTextures:p,maxVertexTextures:m,maxTextureSize:h,maxCubemapSize:g,maxAttributes:_,maxVertexUniforms:v,maxVaryings:y,maxFragmentUniforms:b,maxSamples:x,samples:S}}function Ou(e){let t=this,n=null,r=0,i=!1,a=!1,o=new $s,s=new Z,c={value:null,needsUpdate:!1};this.uniform=c,this.numPlanes=0,this.numIntersection=0,this.init=function(e,t){let n=e.length!==0||t||r!==0||i;return i=t,r=e.length,n},this.beginShadows=function(){a=!0,u(null)},this.endShadows=function(){a=!1},this.setGlobalState=function(e,t){n=u(e,t,0)},this.setState=function(t,o,s){let d=t.clippingPlanes,f=t.clipIntersection,p=t.clipShadows,m=e.get(t);if(!i||d===null||d.length===0||a&&!p)a?u(null):l();else{let e=a?0:r,t=e*4,i=m.clippingState||null;c.value=i,i=u(d,o,t,s);for(let e=0;e!==t;++e)i[e]=n[e];m.clippingState=i,this.numIntersection=f?this.numPlanes:0,this.numPlanes+=e}};function l(){c.value!==n&&(c.value=n,c.needsUpdate=r>0),t.numPlanes=r,t.numIntersection=0}function u(e,n,r,i){let a=e===null?0:e.length,l=null;if(a!==0){if(l=c.value,i!==!0||l===null){let t=r+a*4,i=n.matrixWorldInverse;s.getNormalMatrix(i),(l===null||l.length<t)&&(l=new Float32Array(t));for(let t=0,n=r;t!==a;++t,n+=4)o.copy(e[t]).applyMatrix4(i,s),o.normal.toArray(l,n),l[n+3]=o.constant}c.value=l,c.needsUpdate=!0}return t.numPlanes=a,t.numIntersection=0,l}}var ku=class extends ho{constructor(e=1,t={}){super(e,e,t),this.isWebGLCubeRenderTarget=!0;let n={width:e,height:e,depth:1},r=[n,n,n,n,n,n];this.texture=new Bc(r),this._setTextureOptions(t),this.texture.isRenderTargetTexture=!0}fromEquirectangularTexture(e,t){this.texture.type=t.type,this.texture.colorSpace=t.colorSpace,this.texture.generateMipmaps=t.generateMipmaps,this.texture.minFilter=t.minFilter,this.texture.magFilter=t.magFilter;let n={uniforms:{tEquirect:{value:null}},vertexShader:`

				varying vec3 vWorldDirection;

				vec3 transformDirection( in vec3 dir, in mat4 matrix ) {

					return normalize( ( matrix * vec4( dir, 0.0 ) ).xyz );

				}

				void main() {

					vWorldDirection = transformDirection( position, modelMatrix );

					#include <begin_vertex>
					#include <project_vertex>

				}
			`,fragmentShader:`

				uniform sampler2D tEquirect;

				varying vec3 vWorldDirection;

				#include <common>

				void main() {

					vec3 direction = normalize( vWorldDirection );

					vec2 sampleUV = equirectUv( direction );

					gl_FragColor = texture2D( tEquirect, sampleUV );

				}
			`},r=new Wc(5,5,5),i=new el({name:`CubemapFromEquirect`,uniforms:Kc(n.uniforms),vertexShader:n.vertexShader,fragmentShader:n.fragmentShader,side:1,blending:0});i.uniforms.tEquirect.value=t;let a=new yc(r,i),o=t.minFilter;return t.minFilter===1008&&(t.minFilter=Vr),new Wl(1,10,this).update(e,a),t.minFilter=o,a.geometry.dispose(),a.material.dispose(),this}clear(e,t=!0,n=!0,r=!0){let i=e.getRenderTarget();for(let i=0;i<6;i++)e.setRenderTarget(this,i),e.clear(t,n,r);e.setRenderTarget(i)}},Au=256,ju=3,Mu=20,Nu=256,Pu=16,Fu=3,Iu=new X,Lu=new $o,Ru=class e{constructor(e){this._renderer=e,this._cubeSize=0,this._sourceTarget=null,this._cubeCamera=new Wl(1,10,null),this._boxMesh=new yc(new Wc(5,5,5),null),this._cubemapMaterial=null,this._equirectMaterial=null,this._blurMaterial=null,this._ggxMaterial=null,this._integrationMaterial=null}fromScene(e,t=0,n=.1,r=100,i={}){let{size:a=256,position:o=Iu}=i,s=this._renderer;this._setSize(a);let c=this._allocateTarget(),l=this._getSourceTarget(!0);t>0&&(l.texture.mipmapsAutoUpdate=!1);let u=s.autoClear,d=s.autoClearColor,f=s.autoClearDepth,p=s.autoClearStencil,m=e.background;s.autoClear=!0,s.autoClearColor=!0,s.autoClearDepth=!0,s.autoClearStencil=!0,m===null&&(e.background=s.getClearColor(Lu));let h=new Wl(n,r,l);return h.position.copy(o),h.update(s,e),s.autoClear=u,s.autoClearColor=d,s.autoClearDepth=f,s.autoClearStencil=p,e.background=m,t>0&&(l.texture.mipmapsAutoUpdate=!0,this._blur(c,t)),this._applyPMREM(c),c}fromEquirectangular(e,t=null){return this._fromTexture(e,t)}fromCubemap(e,t=null){return this._fromTexture(e,t)}compileCubemapShader(){this._cubemapMaterial===null&&(this._cubemapMaterial=Gu(),this._compileMaterial(this._cubemapMaterial))}compileEquirectangularShader(){this._equirectMaterial===null&&(this._equirectMaterial=Wu(),this._compileMaterial(this._equirectMaterial))}dispose(){this._sourceTarget!==null&&this._sourceTarget.dispose(),this._cubemapMaterial!==null&&this._cubemapMaterial.dispose(),this._equirectMaterial!==null&&this._equirectMaterial.dispose(),this._blurMaterial!==null&&this._blurMaterial.dispose(),this._ggxMaterial!==null&&this._ggxMaterial.dispose(),this._integrationMaterial!==null&&this._integrationMaterial.dispose(),this._boxMesh.geometry.dispose()}static lodToRoughness(e,t){return t>0?1-Math.sqrt(1-e/t):0}_setSize(e){this._cubeSize=Math.max(Au,Ha(e))}_fromTexture(e,t){e.mapping===301||e.mapping===302?this._setSize(e.image.length===0?Au:e.image[0].width||e.image[0].image.width):this._setSize(e.image.width/4);let n=t||this._allocateTarget();return this._textureToCubemap(e),this._applyPMREM(n),n}_allocateTarget(){let e=this._cubeSize,t=zu(e,!1,!1),n=Math.log2(e)-ju;for(let r=0;r<=n;r++)t.texture.mipmaps.push({width:e>>r,height:e>>r});return t.texture.name=`PMREM`,t.texture.isPMREMTexture=!0,t}_getSourceTarget(e=!1){let t=this._cubeSize,n=this._sourceTarget;return(n===null||n.width!==t||e&&n.depthBuffer===!1)&&(n!==null&&n.dispose(),this._sourceTarget=zu(t,!0,e)),this._sourceTarget}_compileMaterial(e){this._boxMesh.material=e,this._renderer.compile(this._boxMesh,this._cubeCamera.children[0])}_renderCube(e,t,n){let r=this._boxMesh,i=this._cubeCamera;r.material=n,i.renderTarget=e,i.activeMipmapLevel=t;let a=e.width>>t;e.viewport.set(0,0,a,a),i.update(this._renderer,r),e.viewport.set(0,0,e.width,e.height)}_textureToCubemap(e){let t;e.mapping===301||e.mapping===302?(this._cubemapMaterial===null&&(this._cubemapMaterial=Gu()),t=this._cubemapMaterial,t.uniforms.flipEnvMap.value=e.isRenderTargetTexture===!1?-1:1):(this._equirectMaterial===null&&(this._equirectMaterial=Wu()),t=this._equirectMaterial),t.uniforms.envMap.value=e,this._renderCube(this._getSourceTarget(),0,t)}_applyPMREM(t){this._ggxMaterial===null&&(this._ggxMaterial=Vu(),this._integrationMaterial=Hu());let n=this._cubeSize,r=t.texture.mipmaps.length-1,i=this._ggxMaterial.uniforms;i.envMap.value=this._sourceTarget.texture;let a=this._integrationMaterial.uniforms;a.envMap.value=this._sourceTarget.texture,a.sourceLod.value=Math.log2(n/Pu);for(let o=0;o<=r;o++){let s=e.lodToRoughness(o,r);if(o>r-Fu)a.roughness.value=s,this._renderCube(t,o,this._integrationMaterial);else{let e=s>0?Math.log2(n)+.5*Math.log2(6/(Nu*s**4))+.5:0;i.roughness.value=s,i.lodBias.value=e,this._renderCube(t,o,this._ggxMaterial)}}}_blur(e,t){this._blurMaterial===null&&(this._blurMaterial=Uu());let n=this._blurMaterial,r=n.uniforms,i=this._sourceTarget;r.sigma.value=Math.min(t,Math.PI)/Math.SQRT2,r.envMap.value=i.texture,this._renderCube(e,0,n),r.envMap.value=e.texture,this._renderCube(i,0,n)}};function zu(e,t,n){return new ku(e,{minFilter:Ur,generateMipmaps:t,type:Zr,colorSpace:ia,depthBuffer:n})}function Bu(e,t,n){return new el({name:e,uniforms:t,vertexShader:Q.cube_vert,fragmentShader:n,side:1,blending:0,depthTest:!1,depthWrite:!1})}function Vu(){return Bu(`PMREMGGXConvolution`,{envMap:{value:null},roughness:{value:0},lodBias:{value:0}},`

		#define GGX_SAMPLES ${Nu}u

		varying vec3 vWorldDirection;

		uniform samplerCube envMap;
		uniform float roughness;
		uniform float lodBias;

		#include <common>

		// Van der Corput radical inverse
		float radicalInverse_VdC( uint bits ) {

			bits = ( bits << 16u ) | ( bits >> 16u );
			bits = ( ( bits & 0x55555555u ) << 1u ) | ( ( bits & 0xAAAAAAAAu ) >> 1u );
			bits = ( ( bits & 0x33333333u ) << 2u ) | ( ( bits & 0xCCCCCCCCu ) >> 2u );
			bits = ( ( bits & 0x0F0F0F0Fu ) << 4u ) | ( ( bits & 0xF0F0F0F0u ) >> 4u );
			bits = ( ( bits & 0x00FF00FFu ) << 8u ) | ( ( bits & 0xFF00FF00u ) >> 8u );
			return float( bits ) * 2.3283064365386963e-10; // / 0x100000000

		}

		// Hammersley sequence
		vec2 hammersley( uint i, uint N ) {

			return vec2( float( i ) / float( N ), radicalInverse_VdC( i ) );

		}

		void main() {

			vec3 N = normalize( vWorldDirection );

			// For very low roughness, just sample the environment directly
			if ( roughness < 0.001 ) {

				gl_FragColor = vec4( textureLod( envMap, N, 0.0 ).rgb, 1.0 );
				return;

			}

			float alpha = roughness * roughness;
			float alpha2 = alpha * alpha;

			// Tangent space basis for VNDF sampling
			vec3 up = abs( N.z ) < 0.999 ? vec3( 0.0, 0.0, 1.0 ) : vec3( 1.0, 0.0, 0.0 );
			vec3 tangent = normalize( cross( up, N ) );
			vec3 bitangent = cross( N, tangent );

			vec3 prefilteredColor = vec3( 0.0 );
			float totalWeight = 0.0;

			for ( uint i = 0u; i < GGX_SAMPLES; i ++ ) {

				vec2 Xi = hammersley( i, GGX_SAMPLES );

				// With V = N, sample the reflected direction directly.
				float invQ = 1.0 / ( 1.0 - Xi.x + alpha2 * Xi.x );
				float NdotL = ( 1.0 - Xi.x - alpha2 * Xi.x ) * invQ;

				if ( NdotL > 0.0 ) {

					float phi = 2.0 * PI * Xi.y;
					float sinTheta = 2.0 * alpha * sqrt( Xi.x * ( 1.0 - Xi.x ) ) * invQ;
					vec3 L = N * NdotL + ( tangent * cos( phi ) + bitangent * sin( phi ) ) * sinTheta;

					// Match the source mip to the sample's solid angle. The terms
					// independent of the sample are precomputed in lodBias.
					float d = alpha2 * invQ;
					float lod = max( log2( d ) + lodBias, 0.0 );

					// Weight by NdotL for the split-sum approximation
					prefilteredColor += textureLod( envMap, L, lod ).rgb * NdotL;
					totalWeight += NdotL;

				}

			}

			gl_FragColor = vec4( prefilteredColor / totalWeight, 1.0 );

		}
	`)}function Hu(){return Bu(`PMREMGGXIntegration`,{envMap:{value:null},roughness:{value:0},sourceLod:{value:0},sourceSize:{value:Pu}},`

		varying vec3 vWorldDirection;

		uniform samplerCube envMap;
		uniform float roughness;
		uniform float sourceLod;
		uniform int sourceSize;

		void main() {

			vec3 N = normalize( vWorldDirection );

			float alpha = roughness * roughness;
			float alpha2 = alpha * alpha;

			float texelSize = 2.0 / float( sourceSize );

			vec3 prefilteredColor = vec3( 0.0 );
			float totalWeight = 0.0;

			// Pair opposite texels: only the one in N's hemisphere contributes.
			for ( int face = 0; face < 3; face ++ ) {

				for ( int y = 0; y < sourceSize; y ++ ) {

					for ( int x = 0; x < sourceSize; x ++ ) {

						vec2 uv = ( vec2( x, y ) + 0.5 ) * texelSize - 1.0;
						vec3 texelDirection = face == 0 ? vec3( 1.0, uv ) : ( face == 1 ? vec3( uv.x, 1.0, uv.y ) : vec3( uv, 1.0 ) );

						float invDistance = inversesqrt( 1.0 + dot( uv, uv ) );
						float NdotL = dot( N, texelDirection );
						texelDirection *= NdotL < 0.0 ? - 1.0 : 1.0;
						NdotL = abs( NdotL ) * invDistance;

						// With V = N, NdotH squared is ( 1 + NdotL ) / 2. Common factors
						// in the GGX distribution and texel solid angle cancel when normalized.
						float d = 1.0 + alpha2 + ( alpha2 - 1.0 ) * NdotL;
						float weight = NdotL * invDistance * invDistance * invDistance / ( d * d );

						prefilteredColor += textureLod( envMap, texelDirection, sourceLod ).rgb * weight;
						totalWeight += weight;

					}

				}

			}

			gl_FragColor = vec4( prefilteredColor / totalWeight, 1.0 );

		}
	`)}function Uu(){return Bu(`PMREMSphericalGaussianBlur`,{envMap:{value:null},sigma:{value:0}},`

		#define SAMPLES ${Mu}
		#define GOLDEN_ANGLE 2.39996322973

		varying vec3 vWorldDirection;

		uniform samplerCube envMap;
		uniform float sigma;

		#include <common>

		void main() {

			vec3 outputDirection = normalize( vWorldDirection );

			vec3 up = abs( outputDirection.z ) < 0.999 ? vec3( 0.0, 0.0, 1.0 ) : vec3( 1.0, 0.0, 0.0 );
			vec3 tangent = normalize( cross( up, outputDirection ) );
			vec3 bitangent = cross( outputDirection, tangent );

			// Truncate the kernel at three standard deviations or at the antipode.
			float thetaMax = min( 3.0 * sigma, PI );
			float truncation = 1.0 - exp( - 0.5 * thetaMax * thetaMax / ( sigma * sigma ) );

			vec3 accumColor = vec3( 0.0 );
			float accumWeight = 0.0;

			for ( int i = 0; i < SAMPLES; i ++ ) {

				// Stratified inverse-CDF sampling of the Gaussian, placed on a golden-angle spiral.
				float stratum = ( float( i ) + 0.5 ) / float( SAMPLES );
				float theta = sigma * sqrt( - 2.0 * log( 1.0 - stratum * truncation ) );
				float phi = float( i ) * GOLDEN_ANGLE;

				vec3 offset = cos( phi ) * tangent + sin( phi ) * bitangent;
				vec3 sampleDirection = cos( theta ) * outputDirection + sin( theta ) * offset;

				// Correct the planar sample density to solid angle.
				float weight = sin( theta ) / theta;

				accumColor += weight * textureLod( envMap, sampleDirection, 0.0 ).rgb;
				accumWeight += weight;

			}

			gl_FragColor = vec4( accumColor / accumWeight, 1.0 );

		}
	`)}function Wu(){return Bu(`PMREMEquirectangularToCubemap`,{envMap:{value:null}},`

		varying vec3 vWorldDirection;

		uniform sampler2D envMap;

		#include <common>

		void main() {

			// Average four subpixel samples to preserve small, bright features.
			vec3 direction = normalize( vWorldDirection );
			vec3 dx = dFdx( direction ) * 0.25;
			vec3 dy = dFdy( direction ) * 0.25;

			vec3 color = textureLod( envMap, equirectUv( normalize( direction - dx - dy ) ), 0.0 ).rgb;
			color += textureLod( envMap, equirectUv( normalize( direction + dx - dy ) ), 0.0 ).rgb;
			color += textureLod( envMap, equirectUv( normalize( direction - dx + dy ) ), 0.0 ).rgb;
			color += textureLod( envMap, equirectUv( normalize( direction + dx + dy ) ), 0.0 ).rgb;
			gl_FragColor = vec4( color * 0.25, 1.0 );

		}
	`)}function Gu(){return Bu(`PMREMCubemapToCubemap`,{envMap:{value:null},flipEnvMap:{value:-1}},`

		varying vec3 vWorldDirection;

		uniform samplerCube envMap;
		uniform float flipEnvMap;

		void main() {

			gl_FragColor = vec4( textureCube( envMap, vec3( flipEnvMap * vWorldDirection.x, vWorldDirection.yz ) ).rgb, 1.0 );

		}
	`)}function Ku(e){let t=new WeakMap,n=new WeakMap,r=null;function i(e,t=!1){return e==null?null:t?o(e):a(e)}function a(n){if(n&&n.isTexture){let r=n.mapping;if(r===303||r===304){if(t.has(n)){let e=t.get(n).texture;return s(e,n.mapping)}{let r=n.image;if(r&&r.height>0){let i=new ku(r.height);return i.fromEquirectangularTexture(e,n),t.set(n,i),n.addEventListener(`dispose`,l),s(i.texture,n.mapping)}return null}}}return n}function o(t){if(t&&t.isTexture&&t.isPMREMTexture!==!0){let i=t.mapping,a=i===303||i===304,o=i===301||i===302;if(a||o){let i=n.get(t),s=i===void 0?0:i.texture.pmremVersion;if(t.isRenderTargetTexture&&t.pmremVersion!==s)return r===null&&(r=new Ru(e)),i=a?r.fromEquirectangular(t,i):r.fromCubemap(t,i),i.texture.pmremVersion=t.pmremVersion,n.set(t,i),i.texture;if(i!==void 0)return i.texture;{let s=t.image;return a&&s&&s.height>0||o&&s&&c(s)?(r===null&&(r=new Ru(e)),i=a?r.fromEquirectangular(t):r.fromCubemap(t),i.texture.pmremVersion=t.pmremVersion,n.set(t,i),t.addEventListener(`dispose`,u),i.texture):null}}}return t}function s(e,t){return t===303?e.mapping=301:t===304&&(e.mapping=302),e}function c(e){let t=0;for(let n=0;n<6;n++)e[n]!==void 0&&t++;return t===6}function l(e){let n=e.target;n.removeEventListener(`dispose`,l);let r=t.get(n);r!==void 0&&(t.delete(n),r.dispose())}function u(e){let t=e.target;t.removeEventListener(`dispose`,u);let r=n.get(t);r!==void 0&&(n.delete(t),r.dispose())}function d(){t=new WeakMap,n=new WeakMap,r!==null&&(r.dispose(),r=null)}return{get:i,dispose:d}}function qu(e){let t={};function n(n){if(t[n]!==void 0)return t[n];let r=e.getExtension(n);return t[n]=r,r}return{has:function(e){return n(e)!==null},init:function(){n(`EXT_color_buffer_float`),n(`WEBGL_clip_cull_distance`),n(`OES_texture_float_linear`),n(`EXT_color_buffer_half_float`),n(`WEBGL_multisampled_render_to_texture`),n(`WEBGL_render_shared_exponent`)},get:function(e){let t=n(e);return t===null&&_a(`WebGLRenderer: `+e+` extension not supported.`),t}}}function Ju(e,t,n,r){let i={},a=new WeakMap,o=new FinalizationRegistry(e=>delete i[e]);function s(e){c(e.target)}function c(e){e.index!==null&&t.remove(e.index);for(let n in e.attributes)t.remove(e.attributes[n]);e.removeEventListener(`dispose`,s),delete i[e.id],o.unregister(e);let c=a.get(e);c&&(t.remove(c),a.delete(e)),r.releaseStatesOfGeometry(e),e.isInstancedBufferGeometry===!0&&delete e._maxInstanceCount,n.memory.geometries--}function l(e,t){return i[t.id]===void 0&&(t.addEventListener(`dispose`,s),i[t.id]=new WeakRef(t),o.register(t,t.id,t),n.memory.geometries++),t}function u(n){let r=n.attributes;for(let n in r)t.update(r[n],e.ARRAY_BUFFER)}function d(e){let n=e.index,r=e.attributes.position,i=0;if(r===void 0)return;let o=n===null?r.array.length/3-1:n.array.length,s=new(r.count>=65535?Is:Fs)(Math.ceil(o/3)*6,1),c=s.array;if(n!==null){let e=n.array;i=n.version;for(let t=0,n=0;t<o;t+=3){let r=e[t+0],i=e[t+1],a=e[t+2];c[n++]=r,c[n++]=i,c[n++]=i,c[n++]=a,c[n++]=a,c[n++]=r}}else{i=r.version;for(let e=0,t=0;e<o;e+=3){let n=e+0,r=e+1,i=e+2;c[t++]=n,c[t++]=r,c[t++]=r,c[t++]=i,c[t++]=i,c[t++]=n}}s.version=i;let l=a.get(e);l&&t.remove(l),a.set(e,s)}function f(e){let t=a.get(e);if(t){let n=e.index;n!==null&&t.version<n.version&&d(e)}else d(e);return a.get(e)}function p(){for(let e in i){let t=i[e].deref();t!==void 0&&c(t)}}return{get:l,update:u,getWireframeAttribute:f,dispose:p}}function Yu(e,t,n){let r;function i(e){r=e}let a,o;function s(e){a=e.type,o=e.bytesPerElement}function c(t,i){e.drawElements(r,i,a,t*o),n.update(i,r,1)}function l(t,i,s){s!==0&&(e.drawElementsInstanced(r,i,a,t*o,s),n.update(i,r,s))}function u(e,i,o){if(o===0)return;t.get(`WEBGL_multi_draw`).multiDrawElementsWEBGL(r,i,0,a,e,0,o);let s=0;for(let e=0;e<o;e++)s+=i[e];n.update(s,r,1)}this.setMode=i,this.setIndex=s,this.render=c,this.renderInstances=l,this.renderMultiDraw=u}function Xu(e){let t={geometries:0,textures:0},n={frame:0,calls:0,triangles:0,points:0,lines:0};function r(t,r,i){switch(n.calls++,r){case e.TRIANGLES:n.triangles+=t/3*i;break;case e.LINES:n.lines+=t/2*i;break;case e.LINE_STRIP:n.lines+=i*(t-1);break;case e.LINE_LOOP:n.lines+=i*t;break;case e.POINTS:n.points+=i*t;break;default:q(`WebGLInfo: Unknown draw mode:`,r)}}function i(){n.calls=0,n.triangles=0,n.points=0,n.lines=0}return{memory:t,render:n,programs:null,autoReset:!0,reset:i,update:r}}function Zu(e,t,n){let r=new WeakMap,i=new po;function a(a,o,s){let c=a.morphTargetInfluences,l=o.morphAttributes.position||o.morphAttributes.normal||o.morphAttributes.color,u=l===void 0?0:l.length,d=r.get(o);if(d===void 0||d.count!==u){d!==void 0&&d.texture.dispose();let e=o.morphAttributes.position!==void 0,n=o.morphAttributes.normal!==void 0,a=o.morphAttributes.color!==void 0,s=o.morphAttributes.position||[],c=o.morphAttributes.normal||[],l=o.morphAttributes.color||[],f=0;e===!0&&(f=1),n===!0&&(f=2),a===!0&&(f=3);let p=o.attributes.position.count*f,m=1;p>t.maxTextureSize&&(m=Math.ceil(p/t.maxTextureSize),p=t.maxTextureSize);let h=new Float32Array(p*m*4*u),g=new go(h,p,m,u);g.type=Xr,g.needsUpdate=!0;let _=f*4;for(let t=0;t<u;t++){let r=s[t],o=c[t],u=l[t],d=p*m*4*t;for(let t=0;t<r.count;t++){let s=t*_;e===!0&&(i.fromBufferAttribute(r,t),h[d+s+0]=i.x,h[d+s+1]=i.y,h[d+s+2]=i.z,h[d+s+3]=0),n===!0&&(i.fromBufferAttribute(o,t),h[d+s+4]=i.x,h[d+s+5]=i.y,h[d+s+6]=i.z,h[d+s+7]=0),a===!0&&(i.fromBufferAttribute(u,t),h[d+s+8]=i.x,h[d+s+9]=i.y,h[d+s+10]=i.z,h[d+s+11]=u.itemSize===4?i.w:1)}}d={count:u,texture:g,size:new Y(p,m)},r.set(o,d);function v(){g.dispose(),r.delete(o),o.removeEventListener(`dispose`,v)}o.addEventListener(`dispose`,v)}if(a.isInstancedMesh===!0&&a.morphTexture!==null)s.getUniforms().setValue(e,`morphTexture`,a.morphTexture,n);else{let t=0;for(let e=0;e<c.length;e++)t+=c[e];let n=o.morphTargetsRelative?1:1-t;s.getUniforms().setValue(e,`morphTargetBaseInfluence`,n),s.getUniforms().setValue(e,`morphTargetInfluences`,c)}s.getUniforms().setValue(e,`morphTargetsTexture`,d.texture,n),s.getUniforms().setValue(e,`morphTargetsTextureSize`,d.size)}return{update:a}}function Qu(e,t,n,r,i){let a=new WeakMap;function o(r){let o=i.render.frame,s=r.geometry,l=t.get(r,s);if(a.get(l)!==o&&(t.update(l),a.set(l,o)),r.isInstancedMesh&&(r.hasEventListener(`dispose`,c)===!1&&r.addEventListener(`dispose`,c),a.get(r)!==o&&(n.update(r.instanceMatrix,e.ARRAY_BUFFER),r.instanceColor!==null&&n.update(r.instanceColor,e.ARRAY_BUFFER),a.set(r,o))),r.isSkinnedMesh){let e=r.skeleton;a.get(e)!==o&&(e.update(),a.set(e,o))}return l}function s(){a=new WeakMap}function c(e){let t=e.target;t.removeEventListener(`dispose`,c),r.releaseStatesOfObject(t),n.remove(t.instanceMatrix),t.instanceColor!==null&&n.remove(t.instanceColor)}return{update:o,dispose:s}}var $u={1:`LINEAR_TONE_MAPPING`,2:`REINHARD_TONE_MAPPING`,3:`CINEON_TONE_MAPPING`,4:`ACES_FILMIC_TONE_MAPPING`,6:`AGX_TONE_MAPPING`,7:`NEUTRAL_TONE_MAPPING`,5:`CUSTOM_TONE_MAPPING`};function ed(e,t,n,r,i,a){let o=new ho(t,n,{type:e,depthBuffer:i,stencilBuffer:a,samples:r?4:0,storeMultisampledDepthBuffer:!1,storeMultisampledStencilBuffer:!1,resolveDepthBuffer:!1,resolveStencilBuffer:!1}),s=null,c=null,l=null,u=new Ys;u.setAttribute(`position`,new Ls([-1,3,0,-1,-1,0,3,-1,0],3)),u.setAttribute(`uv`,new Ls([0,2,0,0,2,0],2));let d=new tl({uniforms:{tDiffuse:{value:null}},vertexShader:`
			precision highp float;

			uniform mat4 modelViewMatrix;
			uniform mat4 projectionMatrix;

			attribute vec3 position;
			attribute vec2 uv;

			varying vec2 vUv;

			void main() {
				vUv = uv;
				gl_Position = projectionMatrix * modelViewMatrix * vec4( position, 1.0 );
			}`,fragmentShader:`
			precision highp float;

			uniform sampler2D tDiffuse;

			varying vec2 vUv;

			#include <tonemapping_pars_fragment>
			#include <colorspace_pars_fragment>

			void main() {
				gl_FragColor = texture2D( tDiffuse, vUv );

				#ifdef LINEAR_TONE_MAPPING
					gl_FragColor.rgb = LinearToneMapping( gl_FragColor.rgb );
				#elif defined( REINHARD_TONE_MAPPING )
					gl_FragColor.rgb = ReinhardToneMapping( gl_FragColor.rgb );
				#elif defined( CINEON_TONE_MAPPING )
					gl_FragColor.rgb = CineonToneMapping( gl_FragColor.rgb );
				#elif defined( ACES_FILMIC_TONE_MAPPING )
					gl_FragColor.rgb = ACESFilmicToneMapping( gl_FragColor.rgb );
				#elif defined( AGX_TONE_MAPPING )
					gl_FragColor.rgb = AgXToneMapping( gl_FragColor.rgb );
				#elif defined( NEUTRAL_TONE_MAPPING )
					gl_FragColor.rgb = NeutralToneMapping( gl_FragColor.rgb );
				#elif defined( CUSTOM_TONE_MAPPING )
					gl_FragColor.rgb = CustomToneMapping( gl_FragColor.rgb );
				#endif

				#ifdef SRGB_TRANSFER
					gl_FragColor = sRGBTransferOETF( gl_FragColor );
				#endif
			}`,depthTest:!1,depthWrite:!1}),f=new yc(u,d),p=new Rl(-1,1,1,-1,0,1),m=null,h=null,g=!1,_,v=null,y=[],b=!1;this.setSize=function(e,t){o.setSize(e,t),s!==null&&s.setSize(e,t),c!==null&&c.setSize(e,t);for(let n=0;n<y.length;n++){let r=y[n];r.setSize&&r.setSize(e,t)}},this.setEffects=function(e){y=e,b=y.length>0&&y[0].isRenderPass===!0;let t=o.width,n=o.height;y.length>0&&s===null&&(s=new ho(t,n,{type:Zr,depthBuffer:!1,stencilBuffer:!1}),c=new ho(t,n,{type:Zr,depthBuffer:!1,stencilBuffer:!1}));let r=i===!0&&y.some(e=>e.needsDepthTexture===!0);r!==(o.depthTexture!==null)&&(r===!0&&l===null&&(l=new Vc(t,n),a===!0&&(l.format=si,l.type=ei)),o.dispose(),o.depthTexture=r?l:null,o.resolveDepthBuffer=r,o.storeMultisampledDepthBuffer=r);for(let e=0;e<y.length;e++){let i=y[e];i.setSize&&i.setSize(t,n),r&&i.needsDepthTexture===!0&&i.setDepthTexture&&i.setDepthTexture(l)}},this.begin=function(e,t){if(g||e.toneMapping===0&&y.length===0)return!1;if(v=t,t!==null){let e=t.width,n=t.height;(o.width!==e||o.height!==n)&&this.setSize(e,n)}return b===!1&&e.setRenderTarget(o),_=e.toneMapping,e.toneMapping=0,!0},this.hasRenderPass=function(){return b},this.end=function(e,t){e.toneMapping=_,g=!0;let n=o,r=s;for(let i=0;i<y.length;i++){let a=y[i];a.enabled!==!1&&(a.render(e,r,n,t),a.needsSwap!==!1&&(n=r,r=r===s?c:s))}if(m!==e.outputColorSpace||h!==e.toneMapping){m=e.outputColorSpace,h=e.toneMapping,d.defines={},to.getTransfer(m)===`srgb`&&(d.defines.SRGB_TRANSFER=``);let t=$u[h];t&&(d.defines[t]=``),d.needsUpdate=!0}d.uniforms.tDiffuse.value=n.texture,e.setRenderTarget(v),e.render(f,p),v=null,g=!1},this.isCompositing=function(){return g},this.dispose=function(){o.dispose(),s!==null&&s.dispose(),c!==null&&c.dispose(),u.dispose(),d.dispose()}}var td=new fo,nd=new Vc(1,1),rd=new Hc(1),id=new go,ad=new _o,od=new Bc,sd=[],cd=[],ld=new Float32Array(16),ud=new Float32Array(9),dd=new Float32Array(4);function fd(e,t,n){let r=e[0];if(r<=0||r>0)return e;let i=t*n,a=sd[i];if(a===void 0&&(a=new Float32Array(i),sd[i]=a),t!==0){r.toArray(a,0);for(let r=1,i=0;r!==t;++r)i+=n,e[r].toArray(a,i)}return a}function pd(e,t){if(e.length!==t.length)return!1;for(let n=0,r=e.length;n<r;n++)if(e[n]!==t[n])return!1;return!0}function md(e,t){for(let n=0,r=t.length;n<r;n++)e[n]=t[n]}function hd(e,t){let n=cd[t];n===void 0&&(n=new Int32Array(t),cd[t]=n);for(let r=0;r!==t;++r)n[r]=e.allocateTextureUnit();return n}function gd(e,t){let n=this.cache;n[0]!==t&&(e.uniform1f(this.addr,t),n[0]=t)}function _d(e,t){let n=this.cache;if(t.x!==void 0)(n[0]!==t.x||n[1]!==t.y)&&(e.uniform2f(this.addr,t.x,t.y),n[0]=t.x,n[1]=t.y);else{if(pd(n,t))return;e.uniform2fv(this.addr,t),md(n,t)}}function vd(e,t){let n=this.cache;if(t.x!==void 0)(n[0]!==t.x||n[1]!==t.y||n[2]!==t.z)&&(e.uniform3f(this.addr,t.x,t.y,t.z),n[0]=t.x,n[1]=t.y,n[2]=t.z);else if(t.r!==void 0)(n[0]!==t.r||n[1]!==t.g||n[2]!==t.b)&&(e.uniform3f(this.addr,t.r,t.g,t.b),n[0]=t.r,n[1]=t.g,n[2]=t.b);else{if(pd(n,t))return;e.uniform3fv(this.addr,t),md(n,t)}}function yd(e,t){let n=this.cache;if(t.x!==void 0)(n[0]!==t.x||n[1]!==t.y||n[2]!==t.z||n[3]!==t.w)&&(e.uniform4f(this.addr,t.x,t.y,t.z,t.w),n[0]=t.x,n[1]=t.y,n[2]=t.z,n[3]=t.w);else{if(pd(n,t))return;e.uniform4fv(this.addr,t),md(n,t)}}function bd(e,t){let n=this.cache,r=t.elements;if(r===void 0){if(pd(n,t))return;e.uniformMatrix2fv(this.addr,!1,t),md(n,t)}else{if(pd(n,r))return;dd.set(r),e.uniformMatrix2fv(this.addr,!1,dd),md(n,r)}}function xd(e,t){let n=this.cache,r=t.elements;if(r===void 0){if(pd(n,t))return;e.uniformMatrix3fv(this.addr,!1,t),md(n,t)}else{if(pd(n,r))return;ud.set(r),e.uniformMatrix3fv(this.addr,!1,ud),md(n,r)}}function Sd(e,t){let n=this.cache,r=t.elements;if(r===void 0){if(pd(n,t))return;e.uniformMatrix4fv(this.addr,!1,t),md(n,t)}else{if(pd(n,r))return;ld.set(r),e.uniformMatrix4fv(this.addr,!1,ld),md(n,r)}}function Cd(e,t){let n=this.cache;n[0]!==t&&(e.uniform1i(this.addr,t),n[0]=t)}function wd(e,t){let n=this.cache;if(t.x!==void 0)(n[0]!==t.x||n[1]!==t.y)&&(e.uniform2i(this.addr,t.x,t.y),n[0]=t.x,n[1]=t.y);else{if(pd(n,t))return;e.uniform2iv(this.addr,t),md(n,t)}}function Td(e,t){let n=this.cache;if(t.x!==void 0)(n[0]!==t.x||n[1]!==t.y||n[2]!==t.z)&&(e.uniform3i(this.addr,t.x,t.y,t.z),n[0]=t.x,n[1]=t.y,n[2]=t.z);else{if(pd(n,t))return;e.uniform3iv(this.addr,t),md(n,t)}}function Ed(e,t){let n=this.cache;if(t.x!==void 0)(n[0]!==t.x||n[1]!==t.y||n[2]!==t.z||n[3]!==t.w)&&(e.uniform4i(this.addr,t.x,t.y,t.z,t.w),n[0]=t.x,n[1]=t.y,n[2]=t.z,n[3]=t.w);else{if(pd(n,t))return;e.uniform4iv(this.addr,t),md(n,t)}}function Dd(e,t){let n=this.cache;n[0]!==t&&(e.uniform1ui(this.addr,t),n[0]=t)}function Od(e,t){let n=this.cache;if(t.x!==void 0)(n[0]!==t.x||n[1]!==t.y)&&(e.uniform2ui(this.addr,t.x,t.y),n[0]=t.x,n[1]=t.y);else{if(pd(n,t))return;e.uniform2uiv(this.addr,t),md(n,t)}}function kd(e,t){let n=this.cache;if(t.x!==void 0)(n[0]!==t.x||n[1]!==t.y||n[2]!==t.z)&&(e.uniform3ui(this.addr,t.x,t.y,t.z),n[0]=t.x,n[1]=t.y,n[2]=t.z);else{if(pd(n,t))return;e.uniform3uiv(this.addr,t),md(n,t)}}function Ad(e,t){let n=this.cache;if(t.x!==void 0)(n[0]!==t.x||n[1]!==t.y||n[2]!==t.z||n[3]!==t.w)&&(e.uniform4ui(this.addr,t.x,t.y,t.z,t.w),n[0]=t.x,n[1]=t.y,n[2]=t.z,n[3]=t.w);else{if(pd(n,t))return;e.uniform4uiv(this.addr,t),md(n,t)}}function jd(e){return e.version===0&&(e.compareFunction=519,e.needsUpdate=!0),e}function Md(e,t,n){let r=this.cache,i=n.allocateTextureUnit();r[0]!==i&&(e.uniform1i(this.addr,i),r[0]=i);let a;a=this.type===e.SAMPLER_2D_SHADOW?jd(nd):td,n.setTexture2D(t||a,i)}function Nd(e,t,n){let r=this.cache,i=n.allocateTextureUnit();r[0]!==i&&(e.uniform1i(this.addr,i),r[0]=i),n.setTexture3D(t||ad,i)}function Pd(e,t,n){let r=this.cache,i=n.allocateTextureUnit();r[0]!==i&&(e.uniform1i(this.addr,i),r[0]=i);let a;a=this.type===e.SAMPLER_CUBE_SHADOW?jd(rd):od,n.setTextureCube(t||a,i)}function Fd(e,t,n){let r=this.cache,i=n.allocateTextureUnit();r[0]!==i&&(e.uniform1i(this.addr,i),r[0]=i),n.setTexture2DArray(t||id,i)}function Id(e){switch(e){case 5126:return gd;case 35664:return _d;case 35665:return vd;case 35666:return yd;case 35674:return bd;case 35675:return xd;case 35676:return Sd;case 5124:case 35670:return Cd;case 35667:case 35671:return wd;case 35668:case 35672:return Td;case 35669:case 35673:return Ed;case 5125:return Dd;case 36294:return Od;case 36295:return kd;case 36296:return Ad;case 35678:case 36198:case 36298:case 36306:case 35682:return Md;case 35679:case 36299:case 36307:return Nd;case 35680:case 36300:case 36308:case 36293:return Pd;case 36289:case 36303:case 36311:case 36292:return Fd}}function Ld(e,t){e.uniform1fv(this.addr,t)}function Rd(e,t){let n=fd(t,this.size,2);e.uniform2fv(this.addr,n)}function zd(e,t){let n=fd(t,this.size,3);e.uniform3fv(this.addr,n)}function Bd(e,t){let n=fd(t,this.size,4);e.uniform4fv(this.addr,n)}function Vd(e,t){let n=fd(t,this.size,4);e.uniformMatrix2fv(this.addr,!1,n)}function Hd(e,t){let n=fd(t,this.size,9);e.uniformMatrix3fv(this.addr,!1,n)}function Ud(e,t){let n=fd(t,this.size,16);e.uniformMatrix4fv(this.addr,!1,n)}function Wd(e,t){e.uniform1iv(this.addr,t)}function Gd(e,t){e.uniform2iv(this.addr,t)}function Kd(e,t){e.uniform3iv(this.addr,t)}function qd(e,t){e.uniform4iv(this.addr,t)}function Jd(e,t){e.uniform1uiv(this.addr,t)}function Yd(e,t){e.uniform2uiv(this.addr,t)}function Xd(e,t){e.uniform3uiv(this.addr,t)}function Zd(e,t){e.uniform4uiv(this.addr,t)}function Qd(e,t,n){let r=this.cache,i=t.length,a=hd(n,i);pd(r,a)||(e.uniform1iv(this.addr,a),md(r,a));let o;o=this.type===e.SAMPLER_2D_SHADOW?jd(nd):td;for(let e=0;e!==i;++e)n.setTexture2D(t[e]||o,a[e])}function $d(e,t,n){let r=this.cache,i=t.length,a=hd(n,i);pd(r,a)||(e.uniform1iv(this.addr,a),md(r,a));for(let e=0;e!==i;++e)n.setTexture3D(t[e]||ad,a[e])}function ef(e,t,n){let r=this.cache,i=t.length,a=hd(n,i);pd(r,a)||(e.uniform1iv(this.addr,a),md(r,a));let o;o=this.type===e.SAMPLER_CUBE_SHADOW?jd(rd):od;for(let e=0;e!==i;++e)n.setTextureCube(t[e]||o,a[e])}function tf(e,t,n){let r=this.cache,i=t.length,a=hd(n,i);pd(r,a)||(e.uniform1iv(this.addr,a),md(r,a));for(let e=0;e!==i;++e)n.setTexture2DArray(t[e]||id,a[e])}function nf(e){switch(e){case 5126:return Ld;case 35664:return Rd;case 35665:return zd;case 35666:return Bd;case 35674:return Vd;case 35675:return Hd;case 35676:return Ud;case 5124:case 35670:return Wd;case 35667:case 35671:return Gd;case 35668:case 35672:return Kd;case 35669:case 35673:return qd;case 5125:return Jd;case 36294:return Yd;case 36295:return Xd;case 36296:return Zd;case 35678:case 36198:case 36298:case 36306:case 35682:return Qd;case 35679:case 36299:case 36307:return $d;case 35680:case 36300:case 36308:case 36293:return ef;case 36289:case 36303:case 36311:case 36292:return tf}}var rf=class{constructor(e,t,n){this.id=e,this.addr=n,this.cache=[],this.type=t.type,this.setValue=Id(t.type)}},af=class{constructor(e,t,n){this.id=e,this.addr=n,this.cache=[],this.type=t.type,this.size=t.size,this.setValue=nf(t.type)}},of=class{constructor(e){this.id=e,this.seq=[],this.map={}}setValue(e,t,n){let r=this.seq;for(let i=0,a=r.length;i!==a;++i){let a=r[i];a.setValue(e,t[a.id],n)}}},sf=/(\w+)(\])?(\[|\.)?/g;function cf(e,t){e.seq.push(t),e.map[t.id]=t}function lf(e,t,n){let r=e.name,i=r.length;for(sf.lastIndex=0;;){let a=sf.exec(r),o=sf.lastIndex,s=a[1],c=a[2]===`]`,l=a[3];if(c&&(s|=0),l===void 0||l===`[`&&o+2===i){cf(n,l===void 0?new rf(s,e,t):new af(s,e,t));break}{let e=n.map[s];e===void 0&&(e=new of(s),cf(n,e)),n=e}}}var uf=class{constructor(e,t){this.seq=[],this.map={};let n=e.getProgramParameter(t,e.ACTIVE_UNIFORMS);for(let r=0;r<n;++r){let n=e.getActiveUniform(t,r);lf(n,e.getUniformLocation(t,n.name),this)}let r=[],i=[];for(let t of this.seq)t.type===e.SAMPLER_2D_SHADOW||t.type===e.SAMPLER_CUBE_SHADOW||t.type===e.SAMPLER_2D_ARRAY_SHADOW?r.push(t):i.push(t);r.length>0&&(this.seq=r.concat(i))}setValue(e,t,n,r){let i=this.map[t];i!==void 0&&i.setValue(e,n,r)}setOptional(e,t,n){let r=t[n];r!==void 0&&this.setValue(e,n,r)}static upload(e,t,n,r){for(let i=0,a=t.length;i!==a;++i){let a=t[i],o=n[a.id];o.needsUpdate!==!1&&a.setValue(e,o.value,r)}}static seqWithValue(e,t){let n=[];for(let r=0,i=e.length;r!==i;++r){let i=e[r];i.id in t&&n.push(i)}return n}};function df(e,t,n){let r=e.createShader(t);return e.shaderSource(r,n),e.compileShader(r),r}var ff=37297,pf=0;function mf(e,t){let n=e.split(`
`),r=[],i=Math.max(t-6,0),a=Math.min(t+6,n.length);for(let e=i;e<a;e++){let i=e+1;r.push(`${i===t?`>`:` `} ${i}: ${n[e]}`)}return r.join(`
`)}var hf=new Z;function gf(e){to._getMatrix(hf,to.workingColorSpace,e);let t=`mat3( ${hf.elements.map(e=>e.toFixed(4))} )`;switch(to.getTransfer(e)){case aa:return[t,`LinearTransferOETF`];case oa:return[t,`sRGBTransferOETF`];default:return K(`WebGLProgram: Unsupported color space: `,e),[t,`LinearTransferOETF`]}}function _f(e,t,n){let r=e.getShaderParameter(t,e.COMPILE_STATUS),i=(e.getShaderInfoLog(t)||``).trim();if(r&&i===``)return``;let a=/ERROR: 0:(\d+)/.exec(i);if(a){let r=parseInt(a[1]);return n.toUpperCase()+`

`+i+`

`+mf(e.getShaderSource(t),r)}return i}function vf(e,t){let n=gf(t);return[`vec4 ${e}( vec4 value ) {`,`	return ${n[1]}( vec4( ${n[0]} * value.rgb, value.a ) );`,`}`].join(`
`)}var yf={1:`Linear`,2:`Reinhard`,3:`Cineon`,4:`ACESFilmic`,6:`AgX`,7:`Neutral`,5:`Custom`};function bf(e,t){let n=yf[t];return n===void 0?(K(`WebGLProgram: Unsupported toneMapping:`,t),`vec3 `+e+`( vec3 color ) { return LinearToneMapping( color ); }`):`vec3 `+e+`( vec3 color ) { return `+n+`ToneMapping( color ); }`}var xf=new X;function Sf(){return to.getLuminanceCoefficients(xf),[`float luminance( const in vec3 rgb ) {`,`	const vec3 weights = vec3( ${xf.x.toFixed(4)}, ${xf.y.toFixed(4)}, ${xf.z.toFixed(4)} );`,`	return dot( weights, rgb );`,`}`].join(`
`)}function Cf(e){return[e.extensionClipCullDistance?`#extension GL_ANGLE_clip_cull_distance : require`:``,e.extensionMultiDraw?`#extension GL_ANGLE_multi_draw : require`:``].filter(Ef).join(`
`)}function wf(e){let t=[];for(let n in e){let r=e[n];r!==!1&&t.push(`#define `+n+` `+r)}return t.join(`
`)}function Tf(e,t){let n={},r=e.getProgramParameter(t,e.ACTIVE_ATTRIBUTES);for(let i=0;i<r;i++){let r=e.getActiveAttrib(t,i),a=r.name,o=1;r.type===e.FLOAT_MAT2&&(o=2),r.type===e.FLOAT_MAT3&&(o=3),r.type===e.FLOAT_MAT4&&(o=4),n[a]={type:r.type,location:e.getAttribLocation(t,a),locationSize:o}}return n}function Ef(e){return e!==``}function Df(e,t){let n=t.numSpotLightShadows+t.numSpotLightMaps-t.numSpotLightShadowsWithMaps;return e.replace(/NUM_SUN_LIGHTS/g,t.numSunLights).replace(/NUM_DIR_LIGHTS/g,t.numDirLights).replace(/NUM_SPOT_LIGHTS/g,t.numSpotLights).replace(/NUM_SPOT_LIGHT_MAPS/g,t.numSpotLightMaps).replace(/NUM_SPOT_LIGHT_COORDS/g,n).replace(/NUM_RECT_AREA_LIGHTS/g,t.numRectAreaLights).replace(/NUM_POINT_LIGHTS/g,t.numPointLights).replace(/NUM_HEMI_LIGHTS/g,t.numHemiLights).replace(/NUM_SUN_LIGHT_SHADOWS/g,t.numSunLightShadows).replace(/NUM_DIR_LIGHT_SHADOWS/g,t.numDirLightShadows).replace(/NUM_SPOT_LIGHT_SHADOWS_WITH_MAPS/g,t.numSpotLightShadowsWithMaps).replace(/NUM_SPOT_LIGHT_SHADOWS/g,t.numSpotLightShadows).replace(/NUM_POINT_LIGHT_SHADOWS/g,t.numPointLightShadows).replace(/NUM_LIGHT_PROBE_GRIDS/g,t.numLightProbeGrids)}function Of(e,t){return e.replace(/NUM_CLIPPING_PLANES/g,t.numClippingPlanes).replace(/UNION_CLIPPING_PLANES/g,t.numClippingPlanes-t.numClipIntersection)}var kf=/^[ \t]*#include +<([\w\d./]+)>/gm;function Af(e){return e.replace(kf,jf)}function jf(e,t){let n=Q[t];if(n===void 0)throw Error(`THREE.WebGLProgram: Can not resolve #include <`+t+`>`);return Af(n)}var Mf=/#pragma unroll_loop_start\s+for\s*\(\s*int\s+i\s*=\s*(\d+)\s*;\s*i\s*<\s*(\d+)\s*;\s*i\s*\+\+\s*\)\s*{([\s\S]+?)}\s+#pragma unroll_loop_end/g;function Nf(e){return e.replace(Mf,Pf)}function Pf(e,t,n,r){let i=``;for(let e=parseInt(t);e<parseInt(n);e++)i+=r.replace(/\[\s*i\s*\]/g,`[ `+e+` ]`).replace(/UNROLLED_LOOP_INDEX/g,e);return i}function Ff(e){let t=`precision ${e.precision} float;
	precision ${e.precision} int;
	precision ${e.precision} sampler2D;
	precision ${e.precision} samplerCube;
	precision ${e.precision} sampler3D;
	precision ${e.precision} sampler2DArray;
	precision ${e.precision} sampler2DShadow;
	precision ${e.precision} samplerCubeShadow;
	precision ${e.precision} sampler2DArrayShadow;
	precision ${e.precision} isampler2D;
	precision ${e.precision} isampler3D;
	precision ${e.precision} isamplerCube;
	precision ${e.precision} isampler2DArray;
	precision ${e.precision} usampler2D;
	precision ${e.precision} usampler3D;
	precision ${e.precision} usamplerCube;
	precision ${e.precision} usampler2DArray;
	`;return e.precision===`highp`?t+=`
#define HIGH_PRECISION`:e.precision===`mediump`?t+=`
#define MEDIUM_PRECISION`:e.precision===`lowp`&&(t+=`
#define LOW_PRECISION`),t}var If={1:`SHADOWMAP_TYPE_PCF`,3:`SHADOWMAP_TYPE_VSM`};function Lf(e){return If[e.shadowMapType]||`SHADOWMAP_TYPE_BASIC`}var Rf={302:`ENVMAP_MODE_REFRACTION`};function zf(e){return e.envMap===!1?`ENVMAP_MODE_REFLECTION`:Rf[e.envMapMode]||`ENVMAP_MODE_REFLECTION`}var Bf={0:`ENVMAP_BLENDING_MULTIPLY`,1:`ENVMAP_BLENDING_MIX`,2:`ENVMAP_BLENDING_ADD`};function Vf(e){return e.envMap===!1?`ENVMAP_BLENDING_NONE`:Bf[e.combine]||`ENVMAP_BLENDING_NONE`}function Hf(e,t,n,r){let i=e.getContext(),a=n.defines,o=n.vertexShader,s=n.fragmentShader,c=Lf(n),l=n.envMapPMREM===!0?`ENVMAP_TYPE_PMREM`:`ENVMAP_TYPE_CUBE`,u=zf(n),d=Vf(n),f=Cf(n),p=wf(a),m=i.createProgram(),h,g,_=n.glslVersion?`#version `+n.glslVersion+`
`:``;n.isRawShaderMaterial?(h=[`#define SHADER_TYPE `+n.shaderType,`#define SHADER_NAME `+n.shaderName,p].filter(Ef).join(`
`),h.length>0&&(h+=`
`),g=[`#define SHADER_TYPE `+n.shaderType,`#define SHADER_NAME `+n.shaderName,p].filter(Ef).join(`
`),g.length>0&&(g+=`
`)):(h=[Ff(n),`#define SHADER_TYPE `+n.shaderType,`#define SHADER_NAME `+n.shaderName,p,n.extensionClipCullDistance?`#define USE_CLIP_DISTANCE`:``,n.batching?`#define USE_BATCHING`:``,n.batchingColor?`#define USE_BATCHING_COLOR`:``,n.instancing?`#define USE_INSTANCING`:``,n.instancingColor?`#define USE_INSTANCING_COLOR`:``,n.instancingMorph?`#define USE_INSTANCING_MORPH`:``,n.useFog&&n.fog?`#define USE_FOG`:``,n.useFog&&n.fogExp2?`#define FOG_EXP2`:``,n.map?`#define USE_MAP`:``,n.envMap?`#define USE_ENVMAP`:``,n.envMap?`#define `+u:``,n.lightMap?`#define USE_LIGHTMAP`:``,n.aoMap?`#define USE_AOMAP`:``,n.bumpMap?`#define USE_BUMPMAP`:``,n.normalMap?`#define USE_NORMALMAP`:``,n.normalMapObjectSpace?`#define USE_NORMALMAP_OBJECTSPACE`:``,n.normalMapTangentSpace?`#define USE_NORMALMAP_TANGENTSPACE`:``,n.displacementMap?`#define USE_DISPLACEMENTMAP`:``,n.emissiveMap?`#define USE_EMISSIVEMAP`:``,n.anisotropy?`#define USE_ANISOTROPY`:``,n.anisotropyMap?`#define USE_ANISOTROPYMAP`:``,n.clearcoatMap?`#define USE_CLEARCOATMAP`:``,n.clearcoatRoughnessMap?`#define USE_CLEARCOAT_ROUGHNESSMAP`:``,n.clearcoatNormalMap?`#define USE_CLEARCOAT_NORMALMAP`:``,n.diffuseRoughnessMap?`#define USE_DIFFUSE_ROUGHNESSMAP`:``,n.iridescenceMap?`#define USE_IRIDESCENCEMAP`:``,n.iridescenceThicknessMap?`#define USE_IRIDESCENCE_THICKNESSMAP`:``,n.specularMap?`#define USE_SPECULARMAP`:``,n.specularColorMap?`#define USE_SPECULAR_COLORMAP`:``,n.specularIntensityMap?`#define USE_SPECULAR_INTENSITYMAP`:``,n.roughnessMap?`#define USE_ROUGHNESSMAP`:``,n.metalnessMap?`#define USE_METALNESSMAP`:``,n.alphaMap?`#define USE_ALPHAMAP`:``,n.alphaHash?`#define USE_ALPHAHASH`:``,n.transmission?`#define USE_TRANSMISSION`:``,n.transmissionMap?`#define USE_TRANSMISSIONMAP`:``,n.thicknessMap?`#define USE_THICKNESSMAP`:``,n.sheenColorMap?`#define USE_SHEEN_COLORMAP`:``,n.sheenRoughnessMap?`#define USE_SHEEN_ROUGHNESSMAP`:``,n.mapUv?`#define MAP_UV `+n.mapUv:``,n.alphaMapUv?`#define ALPHAMAP_UV `+n.alphaMapUv:``,n.lightMapUv?`#define LIGHTMAP_UV `+n.lightMapUv:``,n.aoMapUv?`#define AOMAP_UV `+n.aoMapUv:``,n.emissiveMapUv?`#define EMISSIVEMAP_UV `+n.emissiveMapUv:``,n.bumpMapUv?`#define BUMPMAP_UV `+n.bumpMapUv:``,n.normalMapUv?`#define NORMALMAP_UV `+n.normalMapUv:``,n.displacementMapUv?`#define DISPLACEMENTMAP_UV `+n.displacementMapUv:``,n.metalnessMapUv?`#define METALNESSMAP_UV `+n.metalnessMapUv:``,n.roughnessMapUv?`#define ROUGHNESSMAP_UV `+n.roughnessMapUv:``,n.anisotropyMapUv?`#define ANISOTROPYMAP_UV `+n.anisotropyMapUv:``,n.clearcoatMapUv?`#define CLEARCOATMAP_UV `+n.clearcoatMapUv:``,n.clearcoatNormalMapUv?`#define CLEARCOAT_NORMALMAP_UV `+n.clearcoatNormalMapUv:``,n.clearcoatRoughnessMapUv?`#define CLEARCOAT_ROUGHNESSMAP_UV `+n.clearcoatRoughnessMapUv:``,n.diffuseRoughnessMapUv?`#define DIFFUSE_ROUGHNESSMAP_UV `+n.diffuseRoughnessMapUv:``,n.iridescenceMapUv?`#define IRIDESCENCEMAP_UV `+n.iridescenceMapUv:``,n.iridescenceThicknessMapUv?`#define IRIDESCENCE_THICKNESSMAP_UV `+n.iridescenceThicknessMapUv:``,n.sheenColorMapUv?`#define SHEEN_COLORMAP_UV `+n.sheenColorMapUv:``,n.sheenRoughnessMapUv?`#define SHEEN_ROUGHNESSMAP_UV `+n.sheenRoughnessMapUv:``,n.specularMapUv?`#define SPECULARMAP_UV `+n.specularMapUv:``,n.specularColorMapUv?`#define SPECULAR_COLORMAP_UV `+n.specularColorMapUv:``,n.specularIntensityMapUv?`#define SPECULAR_INTENSITYMAP_UV `+n.specularIntensityMapUv:``,n.transmissionMapUv?`#define TRANSMISSIONMAP_UV `+n.transmissionMapUv:``,n.thicknessMapUv?`#define THICKNESSMAP_UV `+n.thicknessMapUv:``,n.vertexTangents&&n.flatShading===!1?`#define USE_TANGENT`:``,n.vertexNormals?`#define HAS_NORMAL`:``,n.vertexColors?`#define USE_COLOR`:``,n.vertexAlphas?`#define USE_COLOR_ALPHA`:``,n.vertexUv1s?`#define USE_UV1`:``,n.vertexUv2s?`#define USE_UV2`:``,n.vertexUv3s?`#define USE_UV3`:``,n.pointsUvs?`#define USE_POINTS_UV`:``,n.flatShading?`#define FLAT_SHADED`:``,n.skinning?`#define USE_SKINNING`:``,n.morphTargets?`#define USE_MORPHTARGETS`:``,n.morphNormals&&n.flatShading===!1?`#define USE_MORPHNORMALS`:``,n.morphColors?`#define USE_MORPHCOLORS`:``,n.morphTargetsCount>0?`#define MORPHTARGETS_TEXTURE_STRIDE `+n.morphTextureStride:``,n.morphTargetsCount>0?`#define MORPHTARGETS_COUNT `+n.morphTargetsCount:``,n.doubleSided?`#define DOUBLE_SIDED`:``,n.flipSided?`#define FLIP_SIDED`:``,n.shadowMapEnabled?`#define USE_SHADOWMAP`:``,n.shadowMapEnabled?`#define `+c:``,n.sizeAttenuation?`#define USE_SIZEATTENUATION`:``,n.numLightProbes>0?`#define USE_LIGHT_PROBES`:``,n.logarithmicDepthBuffer?`#define USE_LOGARITHMIC_DEPTH_BUFFER`:``,n.reversedDepthBuffer?`#define USE_REVERSED_DEPTH_BUFFER`:``,`uniform mat4 modelMatrix;`,`uniform mat4 modelViewMatrix;`,`uniform mat4 projectionMatrix;`,`uniform mat4 viewMatrix;`,`uniform mat3 normalMatrix;`,`uniform vec3 cameraPosition;`,`uniform bool isOrthographic;`,`#ifdef USE_INSTANCING`,`	attribute mat4 instanceMatrix;`,`#endif`,`#ifdef USE_INSTANCING_COLOR`,`	attribute vec3 instanceColor;`,`#endif`,`#ifdef USE_INSTANCING_MORPH`,`	uniform sampler2D morphTexture;`,`#endif`,`attribute vec3 position;`,`attribute vec3 normal;`,`attribute vec2 uv;`,`#ifdef USE_UV1`,`	attribute vec2 uv1;`,`#endif`,`#ifdef USE_UV2`,`	attribute vec2 uv2;`,`#endif`,`#ifdef USE_UV3`,`	attribute vec2 uv3;`,`#endif`,`#ifdef USE_TANGENT`,`	attribute vec4 tangent;`,`#endif`,`#if defined( USE_COLOR_ALPHA )`,`	attribute vec4 color;`,`#elif defined( USE_COLOR )`,`	attribute vec3 color;`,`#endif`,`#ifdef USE_SKINNING`,`	attribute vec4 skinIndex;`,`	attribute vec4 skinWeight;`,`#endif`,`
`].filter(Ef).join(`
`),g=[Ff(n),`#define SHADER_TYPE `+n.shaderType,`#define SHADER_NAME `+n.shaderName,p,n.useFog&&n.fog?`#define USE_FOG`:``,n.useFog&&n.fogExp2?`#define FOG_EXP2`:``,n.alphaToCoverage?`#define ALPHA_TO_COVERAGE`:``,n.map?`#define USE_MAP`:``,n.matcap?`#define USE_MATCAP`:``,n.envMap?`#define USE_ENVMAP`:``,n.envMap?`#define `+l:``,n.envMap?`#define `+u:``,n.envMap?`#define `+d:``,n.envMapPMREM?`#define ENVMAP_MAX_LOD `+n.envMapMaxLod+`.0`:``,n.envMapPMREM?`#define ENVMAP_SIZE `+n.envMapSize+`.0`:``,n.lightMap?`#define USE_LIGHTMAP`:``,n.aoMap?`#define USE_AOMAP`:``,n.bumpMap?`#define USE_BUMPMAP`:``,n.normalMap?`#define USE_NORMALMAP`:``,n.normalMapObjectSpace?`#define USE_NORMALMAP_OBJECTSPACE`:``,n.normalMapTangentSpace?`#define USE_NORMALMAP_TANGENTSPACE`:``,n.packedNormalMap?`#define USE_PACKED_NORMALMAP`:``,n.emissiveMap?`#define USE_EMISSIVEMAP`:``,n.anisotropy?`#define USE_ANISOTROPY`:``,n.anisotropyMap?`#define USE_ANISOTROPYMAP`:``,n.clearcoat?`#define USE_CLEARCOAT`:``,n.clearcoatMap?`#define USE_CLEARCOATMAP`:``,n.clearcoatRoughnessMap?`#define USE_CLEARCOAT_ROUGHNESSMAP`:``,n.clearcoatNormalMap?`#define USE_CLEARCOAT_NORMALMAP`:``,n.diffuseRoughness?`#define USE_DIFFUSE_ROUGHNESS`:``,n.diffuseRoughnessMap?`#define USE_DIFFUSE_ROUGHNESSMAP`:``,n.dispersion?`#define USE_DISPERSION`:``,n.retroreflection?`#define USE_RETROREFLECTION`:``,n.iridescence?`#define USE_IRIDESCENCE`:``,n.iridescenceMap?`#define USE_IRIDESCENCEMAP`:``,n.iridescenceThicknessMap?`#define USE_IRIDESCENCE_THICKNESSMAP`:``,n.specularMap?`#define USE_SPECULARMAP`:``,n.specularColorMap?`#define USE_SPECULAR_COLORMAP`:``,n.specularIntensityMap?`#define USE_SPECULAR_INTENSITYMAP`:``,n.roughnessMap?`#define USE_ROUGHNESSMAP`:``,n.metalnessMap?`#define USE_METALNESSMAP`:``,n.alphaMap?`#define USE_ALPHAMAP`:``,n.alphaTest?`#define USE_ALPHATEST`:``,n.alphaHash?`#define USE_ALPHAHASH`:``,n.sheen?`#define USE_SHEEN`:``,n.sheenColorMap?`#define USE_SHEEN_COLORMAP`:``,n.sheenRoughnessMap?`#define USE_SHEEN_ROUGHNESSMAP`:``,n.transmission?`#define USE_TRANSMISSION`:``,n.transmissionMap?`#define USE_TRANSMISSIONMAP`:``,n.thicknessMap?`#define USE_THICKNESSMAP`:``,n.vertexTangents&&n.flatShading===!1?`#define USE_TANGENT`:``,n.vertexColors||n.instancingColor?`#define USE_COLOR`:``,n.vertexAlphas||n.batchingColor?`#define USE_COLOR_ALPHA`:``,n.vertexUv1s?`#define USE_UV1`:``,n.vertexUv2s?`#define USE_UV2`:``,n.vertexUv3s?`#define USE_UV3`:``,n.pointsUvs?`#define USE_POINTS_UV`:``,n.gradientMap?`#define USE_GRADIENTMAP`:``,n.flatShading?`#define FLAT_SHADED`:``,n.doubleSided?`#define DOUBLE_SIDED`:``,n.flipSided?`#define FLIP_SIDED`:``,n.shadowMapEnabled?`#define USE_SHADOWMAP`:``,n.shadowMapEnabled?`#define `+c:``,n.premultipliedAlpha?`#define PREMULTIPLIED_ALPHA`:``,n.numLightProbes>0?`#define USE_LIGHT_PROBES`:``,n.decodeVideoTexture?`#define DECODE_VIDEO_TEXTURE`:``,n.decodeVideoTextureEmissive?`#define DECODE_VIDEO_TEXTURE_EMISSIVE`:``,n.logarithmicDepthBuffer?`#define USE_LOGARITHMIC_DEPTH_BUFFER`:``,n.reversedDepthBuffer?`#define USE_REVERSED_DEPTH_BUFFER`:``,`uniform mat4 viewMatrix;`,`uniform vec3 cameraPosition;`,`uniform bool isOrthographic;`,n.toneMapping===0?``:`#define TONE_MAPPING`,n.toneMapping===0?``:Q.tonemapping_pars_fragment,n.toneMapping===0?``:bf(`toneMapping`,n.toneMapping),n.dithering?`#define DITHERING`:``,n.opaque?`#define OPAQUE`:``,Q.colorspace_pars_fragment,vf(`linearToOutputTexel`,n.outputColorSpace),Sf(),n.useDepthPacking?`#define DEPTH_PACKING `+n.depthPacking:``,`
`].filter(Ef).join(`
`)),o=Af(o),o=Df(o,n),o=Of(o,n),s=Af(s),s=Df(s,n),s=Of(s,n),o=Nf(o),s=Nf(s),n.isRawShaderMaterial!==!0&&(_=`#version 300 es
`,h=[f,`#define attribute in`,`#define varying out`,`#define texture2D texture`].join(`
`)+`
`+h,g=[`#define varying in`,n.glslVersion===`300 es`?``:`layout(location = 0) out highp vec4 pc_fragColor;`,n.glslVersion===`300 es`?``:`#define gl_FragColor pc_fragColor`,`#define gl_FragDepthEXT gl_FragDepth`,`#define texture2D texture`,`#define textureCube texture`,`#define texture2DProj textureProj`,`#define texture2DLodEXT textureLod`,`#define texture2DProjLodEXT textureProjLod`,`#define textureCubeLodEXT textureLod`,`#define texture2DGradEXT textureGrad`,`#define texture2DProjGradEXT textureProjGrad`,`#define textureCubeGradEXT textureGrad`].join(`
`)+`
`+g);let v=_+h+o,y=_+g+s,b=df(i,i.VERTEX_SHADER,v),x=df(i,i.FRAGMENT_SHADER,y);i.attachShader(m,b),i.attachShader(m,x),n.index0AttributeName===void 0?n.hasPositionAttribute===!0&&i.bindAttribLocation(m,0,`position`):i.bindAttribLocation(m,0,n.index0AttributeName),i.linkProgram(m);function S(t){if(e.debug.checkShaderErrors){let n=i.getProgramInfoLog(m)||``,r=i.getShaderInfoLog(b)||``,a=i.getShaderInfoLog(x)||``,o=n.trim(),s=r.trim(),c=a.trim(),l=!0,u=!0;if(i.getProgramParameter(m,i.LINK_STATUS)===!1){if(l=!1,typeof e.debug.onShaderError==`function`)e.debug.onShaderError(i,m,b,x);else{let e=_f(i,b,`vertex`),n=_f(i,x,`fragment`);q(`WebGLProgram: Shader Error `+i.getError()+` - VALIDATE_STATUS `+i.getProgramParameter(m,i.VALIDATE_STATUS)+`

Material Name: `+t.name+`
Material Type: `+t.type+`

Program Info Log: `+o+`
`+e+`
`+n)}}else o===``?(s===``||c===``)&&(u=!1):K(`WebGLProgram: Program Info Log:`,o);u&&(t.diagnostics={runnable:l,programLog:o,vertexShader:{log:s,prefix:h},fragmentShader:{log:c,prefix:g}})}i.deleteShader(b),i.deleteShader(x),C=new uf(i,m),w=Tf(i,m)}let C;this.getUniforms=function(){return C===void 0&&S(this),C};let w;this.getAttributes=function(){return w===void 0&&S(this),w};let T=n.rendererExtensionParallelShaderCompile===!1;return this.isReady=function(){return T===!1&&(T=i.getProgramParameter(m,ff)),T},this.destroy=function(){r.releaseStatesOfProgram(this),i.deleteProgram(m),this.program=void 0},this.type=n.shaderType,this.name=n.shaderName,this.id=pf++,this.cacheKey=t,this.usedTimes=1,this.program=m,this.vertexShader=b,this.fragmentShader=x,this}var Uf=0,Wf=class{constructor(){this.shaderCache=new Map,this.materialCache=new Map}update(e,t,n){let r=this._getShaderCacheForMaterial(e);return r.has(t)===!1&&(r.add(t),t.usedTimes++),r.has(n)===!1&&(r.add(n),n.usedTimes++),this}remove(e){let t=this.materialCache.get(e);for(let e of t)e.usedTimes--,e.usedTimes===0&&this.shaderCache.delete(e.code);return this.materialCache.delete(e),this}getVertexShaderStage(e){return this._getShaderStage(e.vertexShader)}getFragmentShaderStage(e){return this._getShaderStage(e.fragmentShader)}dispose(){this.shaderCache.clear(),this.materialCache.clear()}_getShaderCacheForMaterial(e){let t=this.materialCache,n=t.get(e);return n===void 0&&(n=new Set,t.set(e,n)),n}_getShaderStage(e){let t=this.shaderCache,n=t.get(e);return n===void 0&&(n=new Gf(e),t.set(e,n)),n}},Gf=class{constructor(e){this.id=Uf++,this.code=e,this.usedTimes=0}};function Kf(e){return e===1030||e===37490||e===36285}function qf(e,t,n,r,i,a){let o=new ko,s=new Wf,c=new Set,l=[],u=new Map,d=r.logarithmicDepthBuffer,f={MeshDepthMaterial:`depth`,MeshDistanceMaterial:`distance`,MeshNormalMaterial:`normal`,MeshBasicMaterial:`basic`,MeshLambertMaterial:`lambert`,MeshPhongMaterial:`phong`,MeshToonMaterial:`toon`,MeshStandardMaterial:`physical`,MeshPhysicalMaterial:`physical`,MeshMatcapMaterial:`matcap`,LineBasicMaterial:`basic`,LineDashedMaterial:`dashed`,PointsMaterial:`points`,ShadowMaterial:`shadow`,SpriteMaterial:`sprite`};function p(e){return c.add(e),e===0?`uv`:`uv${e}`}function m(i,o,l,u,m,h){let g=u.fog,_=m.geometry,v=i.isMeshStandardMaterial||i.isMeshLambertMaterial||i.isMeshPhongMaterial?u.environment:null,y=i.isMeshStandardMaterial||i.isMeshLambertMaterial&&!i.envMap||i.isMeshPhongMaterial&&!i.envMap,b=t.get(i.envMap||v,y),x=f[i.type],S=r.precision;i.precision!==null&&(S=r.getMaxPrecision(i.precision),S!==i.precision&&K(`WebGLProgram.getParameters:`,i.precision,`not supported, using`,S,`instead.`));let C=_.morphAttributes.position||_.morphAttributes.normal||_.morphAttributes.color,w=C===void 0?0:C.length,T=0;_.morphAttributes.position!==void 0&&(T=1),_.morphAttributes.normal!==void 0&&(T=2),_.morphAttributes.color!==void 0&&(T=3);let E,D,O,k;if(x){let e=bu[x];E=e.vertexShader,D=e.fragmentShader}else{E=i.vertexShader,D=i.fragmentShader;let e=s.getVertexShaderStage(i),t=s.getFragmentShaderStage(i);s.update(i,e,t),O=e.id,k=t.id}let A=e.getRenderTarget(),j=e.state.buffers.depth.getReversed(),ee=m.isInstancedMesh===!0,M=m.isBatchedMesh===!0,N=!!i.map,te=!!i.matcap,ne=!!b,re=ne&&b.isPMREMTexture===!0,ie=!!i.aoMap,ae=!!i.lightMap,oe=!!i.bumpMap&&i.wireframe===!1,se=!!i.normalMap,ce=!!i.displacementMap,le=!!i.emissiveMap,ue=!!i.metalnessMap,de=!!i.roughnessMap,fe=i.anisotropy>0,pe=i.clearcoat>0,me=i.diffuseRoughness>0,he=i.dispersion>0,ge=i.retroreflectivity>0,P=i.iridescence>0,_e=i.sheen>0,ve=i.transmission>0,ye=fe&&!!i.anisotropyMap,be=pe&&!!i.clearcoatMap,xe=pe&&!!i.clearcoatNormalMap,Se=pe&&!!i.clearcoatRoughnessMap,Ce=me&&!!i.diffuseRoughnessMap,F=P&&!!i.iridescenceMap,we=P&&!!i.iridescenceThicknessMap,Te=_e&&!!i.sheenColorMap,Ee=_e&&!!i.sheenRoughnessMap,I=!!i.specularMap,De=!!i.specularColorMap,L=!!i.specularIntensityMap,R=ve&&!!i.transmissionMap,Oe=ve&&!!i.thicknessMap,ke=!!i.gradientMap,Ae=!!i.alphaMap,je=i.alphaTest>0,Me=!!i.alphaHash,Ne=!!i.extensions,Pe=0;i.toneMapped&&(A===null||A.isXRRenderTarget===!0)&&(Pe=e.toneMapping);let Fe=re?b.isCompressedCubeTexture?b.image[0].mipmaps:b.mipmaps:null,Ie={shaderID:x,shaderType:i.type,shaderName:i.name,vertexShader:E,fragmentShader:D,defines:i.defines,customVertexShaderID:O,customFragmentShaderID:k,isRawShaderMaterial:i.isRawShaderMaterial===!0,glslVersion:i.glslVersion,precision:S,batching:M,batchingColor:M&&m._colorsTexture!==null,instancing:ee,instancingColor:ee&&m.instanceColor!==null,instancingMorph:ee&&m.morphTexture!==null,outputColorSpace:A===null?e.outputColorSpace:A.isXRRenderTarget===!0?A.texture.colorSpace:to.workingColorSpace,alphaToCoverage:!!i.alphaToCoverage,map:N,matcap:te,envMap:ne,envMapMode:ne&&b.mapping,envMapPMREM:re,envMapMaxLod:re?Fe.length-1:null,envMapSize:re?Fe[0].width:null,aoMap:ie,lightMap:ae,bumpMap:oe,normalMap:se,displacementMap:ce,emissiveMap:le,normalMapObjectSpace:se&&i.normalMapType===1,normalMapTangentSpace:se&&i.normalMapType===0,packedNormalMap:se&&i.normalMapType===0&&Kf(i.normalMap.format),metalnessMap:ue,roughnessMap:de,anisotropy:fe,anisotropyMap:ye,clearcoat:pe,clearcoatMap:be,clearcoatNormalMap:xe,clearcoatRoughnessMap:Se,diffuseRoughness:me,diffuseRoughnessMap:Ce,dispersion:he,retroreflection:ge,iridescence:P,iridescenceMap:F,iridescenceThicknessMap:we,sheen:_e,sheenColorMap:Te,sheenRoughnessMap:Ee,specularMap:I,specularColorMap:De,specularIntensityMap:L,transmission:ve,transmissionMap:R,thicknessMap:Oe,gradientMap:ke,opaque:i.transparent===!1&&i.blending===1&&i.alphaToCoverage===!1,alphaMap:Ae,alphaTest:je,alphaHash:Me,combine:i.combine,mapUv:N&&p(i.map.channel),aoMapUv:ie&&p(i.aoMap.channel),lightMapUv:ae&&p(i.lightMap.channel),bumpMapUv:oe&&p(i.bumpMap.channel),normalMapUv:se&&p(i.normalMap.channel),displacementMapUv:ce&&p(i.displacementMap.channel),emissiveMapUv:le&&p(i.emissiveMap.channel),metalnessMapUv:ue&&p(i.metalnessMap.channel),roughnessMapUv:de&&p(i.roughnessMap.channel),anisotropyMapUv:ye&&p(i.anisotropyMap.channel),clearcoatMapUv:be&&p(i.clearcoatMap.channel),clearcoatNormalMapUv:xe&&p(i.clearcoatNormalMap.channel),clearcoatRoughnessMapUv:Se&&p(i.clearcoatRoughnessMap.channel),diffuseRoughnessMapUv:Ce&&p(i.diffuseRoughnessMap.channel),iridescenceMapUv:F&&p(i.iridescenceMap.channel),iridescenceThicknessMapUv:we&&p(i.iridescenceThicknessMap.channel),sheenColorMapUv:Te&&p(i.sheenColorMap.channel),sheenRoughnessMapUv:Ee&&p(i.sheenRoughnessMap.channel),specularMapUv:I&&p(i.specularMap.channel),specularColorMapUv:De&&p(i.specularColorMap.channel),specularIntensityMapUv:L&&p(i.specularIntensityMap.channel),transmissionMapUv:R&&p(i.transmissionMap.channel),thicknessMapUv:Oe&&p(i.thicknessMap.channel),alphaMapUv:Ae&&p(i.alphaMap.channel),vertexTangents:!!_.attributes.tangent&&(se||fe),vertexNormals:!!_.attributes.normal,vertexColors:i.vertexColors,vertexAlphas:i.vertexColors===!0&&!!_.attributes.color&&_.attributes.color.itemSize===4,pointsUvs:m.isPoints===!0&&!!_.attributes.uv&&(N||Ae),fog:!!g,useFog:i.fog===!0,fogExp2:!!g&&g.isFogExp2,flatShading:i.wireframe===!1&&(i.flatShading===!0||_.attributes.normal===void 0&&se===!1&&(i.isMeshLambertMaterial||i.isMeshPhongMaterial||i.isMeshStandardMaterial||i.isMeshPhysicalMaterial)),sizeAttenuation:i.sizeAttenuation===!0,logarithmicDepthBuffer:d,reversedDepthBuffer:j,skinning:m.isSkinnedMesh===!0,hasPositionAttribute:_.attributes.position!==void 0,morphTargets:_.morphAttributes.position!==void 0,morphNormals:_.morphAttributes.normal!==void 0,morphColors:_.morphAttributes.color!==void 0,morphTargetsCount:w,morphTextureStride:T,numSunLights:o.sun.length,numDirLights:o.directional.length,numPointLights:o.point.length,numSpotLights:o.spot.length,numSpotLightMaps:o.spotLightMap.length,numRectAreaLights:o.rectArea.length,numHemiLights:o.hemi.length,numSunLightShadows:o.sunShadowMap.length,numDirLightShadows:o.directionalShadowMap.length,numPointLightShadows:o.pointShadowMap.length,numSpotLightShadows:o.spotShadowMap.length,numSpotLightShadowsWithMaps:o.numSpotLightShadowsWithMaps,numLightProbes:o.numLightProbes,numLightProbeGrids:h.filter(e=>e.texture!==null).length,numClippingPlanes:a.numPlanes,numClipIntersection:a.numIntersection,dithering:i.dithering,shadowMapEnabled:e.shadowMap.enabled&&l.length>0,shadowMapType:e.shadowMap.type,toneMapping:Pe,decodeVideoTexture:N&&i.map.isVideoTexture===!0&&to.getTransfer(i.map.colorSpace)===`srgb`,decodeVideoTextureEmissive:le&&i.emissiveMap.isVideoTexture===!0&&to.getTransfer(i.emissiveMap.colorSpace)===`srgb`,premultipliedAlpha:i.premultipliedAlpha,doubleSided:i.side===2,flipSided:i.side===1,useDepthPacking:i.depthPacking>=0,depthPacking:i.depthPacking||0,index0AttributeName:i.index0AttributeName,extensionClipCullDistance:Ne&&i.extensions.clipCullDistance===!0&&n.has(`WEBGL_clip_cull_distance`),extensionMultiDraw:(Ne&&i.extensions.multiDraw===!0||M)&&n.has(`WEBGL_multi_draw`),rendererExtensionParallelShaderCompile:n.has(`KHR_parallel_shader_compile`),customProgramCacheKey:i.customProgramCacheKey()};return Ie.vertexUv1s=c.has(1),Ie.vertexUv2s=c.has(2),Ie.vertexUv3s=c.has(3),c.clear(),Ie}function h(t){let n=[];if(t.shaderID?n.push(t.shaderID):(n.push(t.customVertexShaderID),n.push(t.customFragmentShaderID)),t.defines!==void 0)for(let e in t.defines)n.push(e),n.push(t.defines[e]);return t.isRawShaderMaterial===!1&&(g(n,t),_(n,t),n.push(e.outputColorSpace)),n.push(t.customProgramCacheKey),n.join()}function g(e,t){e.push(t.precision),e.push(t.outputColorSpace),e.push(t.envMapMode),e.push(t.envMapPMREM),e.push(t.envMapMaxLod),e.push(t.envMapSize),e.push(t.mapUv),e.push(t.alphaMapUv),e.push(t.lightMapUv),e.push(t.aoMapUv),e.push(t.bumpMapUv),e.push(t.normalMapUv),e.push(t.displacementMapUv),e.push(t.emissiveMapUv),e.push(t.metalnessMapUv),e.push(t.roughnessMapUv),e.push(t.anisotropyMapUv),e.push(t.clearcoatMapUv),e.push(t.clearcoatNormalMapUv),e.push(t.clearcoatRoughnessMapUv),e.push(t.diffuseRoughnessMapUv),e.push(t.iridescenceMapUv),e.push(t.iridescenceThicknessMapUv),e.push(t.sheenColorMapUv),e.push(t.sheenRoughnessMapUv),e.push(t.specularMapUv),e.push(t.specularColorMapUv),e.push(t.specularIntensityMapUv),e.push(t.transmissionMapUv),e.push(t.thicknessMapUv),e.push(t.combine),e.push(t.fogExp2),e.push(t.sizeAttenuation),e.push(t.morphTargetsCount),e.push(t.numSunLights),e.push(t.numDirLights),e.push(t.numPointLights),e.push(t.numSpotLights),e.push(t.numSpotLightMaps),e.push(t.numHemiLights),e.push(t.numRectAreaLights),e.push(t.numSunLightShadows),e.push(t.numDirLightShadows),e.push(t.numPointLightShadows),e.push(t.numSpotLightShadows),e.push(t.numSpotLightShadowsWithMaps),e.push(t.numLightProbes),e.push(t.numLightProbeGrids),e.push(t.shadowMapType),e.push(t.toneMapping),e.push(t.numClippingPlanes),e.push(t.numClipIntersection),e.push(t.depthPacking)}function _(e,t){o.disableAll(),t.instancing&&o.enable(0),t.instancingColor&&o.enable(1),t.instancingMorph&&o.enable(2),t.matcap&&o.enable(3),t.envMap&&o.enable(4),t.normalMapObjectSpace&&o.enable(5),t.normalMapTangentSpace&&o.enable(6),t.clearcoat&&o.enable(7),t.iridescence&&o.enable(8),t.alphaTest&&o.enable(9),t.vertexColors&&o.enable(10),t.vertexAlphas&&o.enable(11),t.vertexUv1s&&o.enable(12),t.vertexUv2s&&o.enable(13),t.vertexUv3s&&o.enable(14),t.vertexTangents&&o.enable(15),t.anisotropy&&o.enable(16),t.alphaHash&&o.enable(17),t.batching&&o.enable(18),t.dispersion&&o.enable(19),t.retroreflection&&o.enable(24),t.diffuseRoughness&&o.enable(25),t.batchingColor&&o.enable(20),t.gradientMap&&o.enable(21),t.packedNormalMap&&o.enable(22),t.vertexNormals&&o.enable(23),e.push(o.mask),o.disableAll(),t.fog&&o.enable(0),t.useFog&&o.enable(1),t.flatShading&&o.enable(2),t.logarithmicDepthBuffer&&o.enable(3),t.reversedDepthBuffer&&o.enable(4),t.skinning&&o.enable(5),t.morphTargets&&o.enable(6),t.morphNormals&&o.enable(7),t.morphColors&&o.enable(8),t.premultipliedAlpha&&o.enable(9),t.shadowMapEnabled&&o.enable(10),t.doubleSided&&o.enable(11),t.flipSided&&o.enable(12),t.useDepthPacking&&o.enable(13),t.dithering&&o.enable(14),t.transmission&&o.enable(15),t.sheen&&o.enable(16),t.opaque&&o.enable(17),t.pointsUvs&&o.enable(18),t.decodeVideoTexture&&o.enable(19),t.decodeVideoTextureEmissive&&o.enable(20),t.alphaToCoverage&&o.enable(21),t.numLightProbeGrids>0&&o.enable(22),t.hasPositionAttribute&&o.enable(23),e.push(o.mask)}function v(e){let t=f[e.type],n;if(t){let e=bu[t];n=Zc.clone(e.uniforms)}else n=e.uniforms;return n}function y(t,n){let r=u.get(n);return r===void 0?(r=new Hf(e,n,t,i),l.push(r),u.set(n,r)):++r.usedTimes,r}function b(e){if(--e.usedTimes===0){let t=l.indexOf(e);l[t]=l[l.length-1],l.pop(),u.delete(e.cacheKey),e.destroy()}}function x(e){s.remove(e)}function S(){s.dispose()}return{getParameters:m,getProgramCacheKey:h,getUniforms:v,acquireProgram:y,releaseProgram:b,releaseShaderCache:x,programs:l,dispose:S}}function Jf(){let e=new WeakMap;function t(t){return e.has(t)}function n(t){let n=e.get(t);return n===void 0&&(n={},e.set(t,n)),n}function r(t){e.delete(t)}function i(t,n,r){e.get(t)[n]=r}function a(){e=new WeakMap}return{has:t,get:n,remove:r,update:i,dispose:a}}function Yf(e,t){return e.groupOrder===t.groupOrder?e.renderOrder===t.renderOrder?e.material.id===t.material.id?e.materialVariant===t.materialVariant?e.z===t.z?e.id-t.id:e.z-t.z:e.materialVariant-t.materialVariant:e.material.id-t.material.id:e.renderOrder-t.renderOrder:e.groupOrder-t.groupOrder}function Xf(e,t){return e.groupOrder===t.groupOrder?e.renderOrder===t.renderOrder?e.z===t.z?e.id-t.id:t.z-e.z:e.renderOrder-t.renderOrder:e.groupOrder-t.groupOrder}function Zf(){let e=[],t=0,n=[],r=[],i=[];function a(){t=0,n.length=0,r.length=0,i.length=0}function o(e){let t=0;return e.isInstancedMesh&&(t+=2),e.isSkinnedMesh&&(t+=1),t}function s(n,r,i,a,s,c){let l=e[t];return l===void 0?(l={id:n.id,object:n,geometry:r,material:i,materialVariant:o(n),groupOrder:a,renderOrder:n.renderOrder,z:s,group:c},e[t]=l):(l.id=n.id,l.object=n,l.geometry=r,l.material=i,l.materialVariant=o(n),l.groupOrder=a,l.renderOrder=n.renderOrder,l.z=s,l.group=c),t++,l}function c(e,t,a,o,c,l,u){u.reversedDepth===!0&&(c=-c);let d=s(e,t,a,o,c,l);a.transmission>0?r.push(d):a.transparent===!0?i.push(d):n.push(d)}function l(e,t,a,o,c,l){let u=s(e,t,a,o,c,l);a.transmission>0?r.unshift(u):a.transparent===!0?i.unshift(u):n.unshift(u)}function u(e,t){n.length>1&&n.sort(e||Yf),r.length>1&&r.sort(t||Xf),i.length>1&&i.sort(t||Xf)}function d(){for(let n=t,r=e.length;n<r;n++){let t=e[n];if(t.id===null)break;t.id=null,t.object=null,t.geometry=null,t.material=null,t.group=null}}return{opaque:n,transmissive:r,transparent:i,init:a,push:c,unshift:l,finish:d,sort:u}}function Qf(){let e=new WeakMap;function t(t,n){let r=e.get(t),i;return r===void 0?(i=new Zf,e.set(t,[i])):n>=r.length?(i=new Zf,r.push(i)):i=r[n],i}function n(){e=new WeakMap}return{get:t,dispose:n}}function $f(){let e={};return{get:function(t){if(e[t.id]!==void 0)return e[t.id];let n;switch(t.type){case`SunLight`:case`DirectionalLight`:n={direction:new X,color:new $o};break;case`SpotLight`:n={position:new X,direction:new X,color:new $o,distance:0,coneCos:0,penumbraCos:0,decay:0};break;case`PointLight`:n={position:new X,color:new $o,distance:0,decay:0};break;case`HemisphereLight`:n={direction:new X,skyColor:new $o,groundColor:new $o};break;case`RectAreaLight`:n={color:new $o,position:new X,halfWidth:new X,halfHeight:new X}}return e[t.id]=n,n}}}function ep(){let e={};return{get:function(t){if(e[t.id]!==void 0)return e[t.id];let n;switch(t.type){case`SunLight`:case`DirectionalLight`:n={shadowIntensity:1,shadowBias:0,shadowNormalBias:0,shadowRadius:1,shadowMapSize:new Y};break;case`SpotLight`:n={shadowIntensity:1,shadowBias:0,shadowNormalBias:0,shadowRadius:1,shadowMapSize:new Y};break;case`PointLight`:n={shadowIntensity:1,shadowBias:0,shadowNormalBias:0,shadowRadius:1,shadowMapSize:new Y,shadowCameraNear:1,shadowCameraFar:1e3}}return e[t.id]=n,n}}}var tp=0;function np(e,t){return(t.castShadow?2:0)-(e.castShadow?2:0)+ +!!t.map-!!e.map}function rp(e){let t=new $f,n=ep(),r={version:0,hash:{sunLength:-1,directionalLength:-1,pointLength:-1,spotLength:-1,rectAreaLength:-1,hemiLength:-1,numSunShadows:-1,numDirectionalShadows:-1,numPointShadows:-1,numSpotShadows:-1,numSpotMaps:-1,numLightProbes:-1},ambient:[0,0,0],probe:[],sun:[],sunShadow:[],sunShadowMap:[],sunShadowMatrix:[],sunShadowCascade:[],directional:[],directionalShadow:[],directionalShadowMap:[],directionalShadowMatrix:[],spot:[],spotLightMap:[],spotShadow:[],spotShadowMap:[],spotLightMatrix:[],rectArea:[],rectAreaLTC1:null,rectAreaLTC2:null,point:[],pointShadow:[],pointShadowMap:[],pointShadowMatrix:[],hemi:[],numSpotLightShadowsWithMaps:0,numLightProbes:0};for(let e=0;e<9;e++)r.probe.push(new X);let i=new X,a=new vo,o=new vo;function s(i){let a=0,o=0,s=0;for(let e=0;e<9;e++)r.probe[e].set(0,0,0);let c=0,l=0,u=0,d=0,f=0,p=0,m=0,h=0,g=0,_=0,v=0,y=0,b=0,x=0;i.sort(np);for(let e=0,S=i.length;e<S;e++){let S=i[e],C=S.color,w=S.intensity,T=S.distance,E=null;if(S.shadow&&S.shadow.map&&(E=S.shadow.map.texture.format===1030?S.shadow.map.texture:S.shadow.map.depthTexture||S.shadow.map.texture),S.isAmbientLight)a+=C.r*w,o+=C.g*w,s+=C.b*w;else if(S.isLightProbe){for(let e=0;e<9;e++)r.probe[e].addScaledVector(S.sh.coefficients[e],w);x++}else if(S.isSunLight){let e=t.get(S);if(e.color.copy(S.color).multiplyScalar(S.intensity),S.castShadow){let e=S.shadow,t=n.get(S);t.shadowIntensity=e.intensity,t.shadowBias=e.bias,t.shadowNormalBias=e.normalBias,t.shadowRadius=e.radius,t.shadowMapSize.copy(e.mapSize).multiply(e.getFrameExtents()),r.sunShadow[l]=t,r.sunShadowMap[l]=E;let i=e.getViewportCount();for(let t=0;t<i;t++)r.sunShadowMatrix[u+t]=e.getMatrix(t),r.sunShadowCascade[u+t]=e._cascadeData[t];u+=i,l++}r.sun[c]=e,c++}else if(S.isDirectionalLight){let e=t.get(S);if(e.color.copy(S.color).multiplyScalar(S.intensity),S.castShadow){let e=S.shadow,t=n.get(S);t.shadowIntensity=e.intensity,t.shadowBias=e.bias,t.shadowNormalBias=e.normalBias,t.shadowRadius=e.radius,t.shadowMapSize=e.mapSize,r.directionalShadow[d]=t,r.directionalShadowMap[d]=E,r.directionalShadowMatrix[d]=S.shadow.matrix,g++}r.directional[d]=e,d++}else if(S.isSpotLight){let e=t.get(S);e.position.setFromMatrixPosition(S.matrixWorld),e.color.copy(C).multiplyScalar(w),e.distance=T,e.coneCos=Math.cos(S.angle),e.penumbraCos=Math.cos(S.angle*(1-S.penumbra)),e.decay=S.decay,r.spot[p]=e;let i=S.shadow;if(S.map&&(r.spotLightMap[y]=S.map,y++,i.updateMatrices(S),S.castShadow&&b++),r.spotLightMatrix[p]=i.matrix,S.castShadow){let e=n.get(S);e.shadowIntensity=i.intensity,e.shadowBias=i.bias,e.shadowNormalBias=i.normalBias,e.shadowRadius=i.radius,e.shadowMapSize=i.mapSize,r.spotShadow[p]=e,r.spotShadowMap[p]=E,v++}p++}else if(S.isRectAreaLight){let e=t.get(S);e.color.copy(C).multiplyScalar(w),e.halfWidth.set(S.width*.5,0,0),e.halfHeight.set(0,S.height*.5,0),r.rectArea[m]=e,m++}else if(S.isPointLight){let e=t.get(S);if(e.color.copy(S.color).multiplyScalar(S.intensity),e.distance=S.distance,e.decay=S.decay,S.castShadow){let e=S.shadow,t=n.get(S);t.shadowIntensity=e.intensity,t.shadowBias=e.bias,t.shadowNormalBias=e.normalBias,t.shadowRadius=e.radius,t.shadowMapSize=e.mapSize,t.shadowCameraNear=e.camera.near,t.shadowCameraFar=e.camera.far,r.pointShadow[f]=t,r.pointShadowMap[f]=E,r.pointShadowMatrix[f]=S.shadow.matrix,_++}r.point[f]=e,f++}else if(S.isHemisphereLight){let e=t.get(S);e.skyColor.copy(S.color).multiplyScalar(w),e.groundColor.copy(S.groundColor).multiplyScalar(w),r.hemi[h]=e,h++}}m>0&&(e.has(`OES_texture_float_linear`)===!0?(r.rectAreaLTC1=$.LTC_FLOAT_1,r.rectAreaLTC2=$.LTC_FLOAT_2):(r.rectAreaLTC1=$.LTC_HALF_1,r.rectAreaLTC2=$.LTC_HALF_2)),r.ambient[0]=a,r.ambient[1]=o,r.ambient[2]=s;let S=r.hash;(S.sunLength!==c||S.directionalLength!==d||S.pointLength!==f||S.spotLength!==p||S.rectAreaLength!==m||S.hemiLength!==h||S.numSunShadows!==l||S.numDirectionalShadows!==g||S.numPointShadows!==_||S.numSpotShadows!==v||S.numSpotMaps!==y||S.numLightProbes!==x)&&(r.sun.length=c,r.directional.length=d,r.spot.length=p,r.rectArea.length=m,r.point.length=f,r.hemi.length=h,r.sunShadow.length=l,r.sunShadowMap.length=l,r.sunShadowMatrix.length=u,r.sunShadowCascade.length=u,r.directionalShadow.length=g,r.directionalShadowMap.length=g,r.directionalShadowMatrix.length=g,r.pointShadow.length=_,r.pointShadowMap.length=_,r.pointShadowMatrix.length=_,r.spotShadow.length=v,r.spotShadowMap.length=v,r.spotLightMatrix.length=v+y-b,r.spotLightMap.length=y,r.numSpotLightShadowsWithMaps=b,r.numLightProbes=x,S.sunLength=c,S.directionalLength=d,S.pointLength=f,S.spotLength=p,S.rectAreaLength=m,S.hemiLength=h,S.numSunShadows=l,S.numDirectionalShadows=g,S.numPointShadows=_,S.numSpotShadows=v,S.numSpotMaps=y,S.numLightProbes=x,r.version=tp++)}function c(e,t){let n=0,s=0,c=0,l=0,u=0,d=0,f=t.matrixWorldInverse;for(let t=0,p=e.length;t<p;t++){let p=e[t];if(p.isSunLight){let e=r.sun[n];e.direction.setFromMatrixPosition(p.matrixWorld),e.direction.transformDirection(f),n++}else if(p.isDirectionalLight){let e=r.directional[s];e.direction.setFromMatrixPosition(p.matrixWorld),i.setFromMatrixPosition(p.target.matrixWorld),e.direction.sub(i),e.direction.transformDirection(f),s++}else if(p.isSpotLight){let e=r.spot[l];e.position.setFromMatrixPosition(p.matrixWorld),e.position.applyMatrix4(f),e.direction.setFromMatrixPosition(p.matrixWorld),i.setFromMatrixPosition(p.target.matrixWorld),e.direction.sub(i),e.direction.transformDirection(f),l++}else if(p.isRectAreaLight){let e=r.rectArea[u];e.position.setFromMatrixPosition(p.matrixWorld),e.position.applyMatrix4(f),o.identity(),a.copy(p.matrixWorld),a.premultiply(f),o.extractRotation(a),e.halfWidth.set(p.width*.5,0,0),e.halfHeight.set(0,p.height*.5,0),e.halfWidth.applyMatrix4(o),e.halfHeight.applyMatrix4(o),u++}else if(p.isPointLight){let e=r.point[c];e.position.setFromMatrixPosition(p.matrixWorld),e.position.applyMatrix4(f),c++}else if(p.isHemisphereLight){let e=r.hemi[d];e.direction.setFromMatrixPosition(p.matrixWorld),e.direction.transformDirection(f),d++}}}return{setup:s,setupView:c,state:r}}function ip(e){let t=new rp(e),n=[],r=[],i=[];function a(e){u.camera=e,n.length=0,r.length=0,i.length=0}function o(e){e.isLightProbeGrid?i.push(e):n.push(e)}function s(e){r.push(e)}function c(){t.setup(n),i.sort((e,t)=>e.priority-t.priority||e.id-t.id)}function l(e){t.setupView(n,e)}let u={lightsArray:n,shadowsArray:r,lightProbeGridArray:i,camera:null,lights:t,transmissionRenderTarget:{},textureUnits:0};return{init:a,state:u,setupLights:c,setupLightsView:l,pushLight:o,pushShadow:s}}function ap(e){let t=new WeakMap;function n(n,r=0){let i=t.get(n),a;return i===void 0?(a=new ip(e),t.set(n,[a])):r>=i.length?(a=new ip(e),i.push(a)):a=i[r],a}function r(){t=new WeakMap}return{get:n,dispose:r}}var op=`void main() {
	gl_Position = vec4( position, 1.0 );
}`,sp=`uniform sampler2D shadow_pass;
uniform vec2 resolution;
uniform float radius;
void main() {
	const float samples = float( VSM_SAMPLES );
	float mean = 0.0;
	float squared_mean = 0.0;
	float uvStride = samples <= 1.0 ? 0.0 : 2.0 / ( samples - 1.0 );
	float uvStart = samples <= 1.0 ? 0.0 : - 1.0;
	for ( float i = 0.0; i < samples; i ++ ) {
		float uvOffset = uvStart + i * uvStride;
		#ifdef HORIZONTAL_PASS
			vec2 distribution = texture2D( shadow_pass, ( gl_FragCoord.xy + vec2( uvOffset, 0.0 ) * radius ) / resolution ).rg;
			mean += distribution.x;
			squared_mean += distribution.y * distribution.y + distribution.x * distribution.x;
		#else
			float depth = texture2D( shadow_pass, ( gl_FragCoord.xy + vec2( 0.0, uvOffset ) * radius ) / resolution ).r;
			mean += depth;
			squared_mean += depth * depth;
		#endif
	}
	mean = mean / samples;
	squared_mean = squared_mean / samples;
	float std_dev = sqrt( max( 0.0, squared_mean - mean * mean ) );
	gl_FragColor = vec4( mean, std_dev, 0.0, 1.0 );
}`,cp=[new X(1,0,0),new X(-1,0,0),new X(0,1,0),new X(0,-1,0),new X(0,0,1),new X(0,0,-1)],lp=[new X(0,-1,0),new X(0,-1,0),new X(0,0,1),new X(0,0,-1),new X(0,-1,0),new X(0,-1,0)],up=new vo,dp=new X,fp=new X;function pp(e,t,n){let r=new Ec,i=new Y,a=new Y,o=new po,s=new rl,c=new il,l={},u=n.maxTextureSize,d={0:1,1:0,2:2},f=new el({defines:{VSM_SAMPLES:8},uniforms:{shadow_pass:{value:null},resolution:{value:new Y},radius:{value:4}},vertexShader:op,fragmentShader:sp}),p=f.clone();p.defines.HORIZONTAL_PASS=1;let m=new Ys;m.setAttribute(`position`,new Ps(new Float32Array([-1,-1,.5,3,-1,.5,-1,3,.5]),3));let h=new yc(m,f),g=this;this.enabled=!1,this.autoUpdate=!0,this.needsUpdate=!1,this.type=1;let _=this.type;this.render=function(t,n,s){if(g.enabled===!1||g.autoUpdate===!1&&g.needsUpdate===!1||t.length===0)return;this.type===2&&(K(`WebGLShadowMap: PCFSoftShadowMap has been removed. Using PCFShadowMap instead.`),this.type=1);let c=e.getRenderTarget(),l=e.getActiveCubeFace(),d=e.getActiveMipmapLevel(),f=e.state;f.setBlending(0),f.buffers.depth.getReversed()===!0?f.buffers.color.setClear(0,0,0,0):f.buffers.color.setClear(1,1,1,1),f.buffers.depth.setTest(!0),f.setScissorTest(!1);let p=_!==this.type;p&&n.traverse(function(e){e.material&&(Array.isArray(e.material)?e.material.forEach(e=>e.needsUpdate=!0):e.material.needsUpdate=!0)});for(let c=0,l=t.length;c<l;c++){let l=t[c],d=l.shadow;if(d===void 0){K(`WebGLShadowMap:`,l,`has no shadow.`);continue}if(d.autoUpdate===!1&&d.needsUpdate===!1)continue;i.copy(d.mapSize);let m=d.getFrameExtents();i.multiply(m),a.copy(d.mapSize),(i.x>u||i.y>u)&&(i.x>u&&(a.x=Math.floor(u/m.x),i.x=a.x*m.x,d.mapSize.x=a.x),i.y>u&&(a.y=Math.floor(u/m.y),i.y=a.y*m.y,d.mapSize.y=a.y));let h=e.state.buffers.depth.getReversed();if(d.camera._reversedDepth=h,d.map===null||p===!0){if(d.map!==null&&(d.map.depthTexture!==null&&(d.map.depthTexture.dispose(),d.map.depthTexture=null),d.map.dispose()),this.type===3){if(l.isPointLight){K(`WebGLShadowMap: VSM shadow maps are not supported for PointLights. Use PCF or BasicShadowMap instead.`);continue}d.map=new ho(i.x,i.y,{format:ui,type:Zr,minFilter:Vr,magFilter:Vr,generateMipmaps:!1}),d.map.texture.name=l.name+`.shadowMap`,d.map.depthTexture=new Vc(i.x,i.y,Xr),d.map.depthTexture.name=l.name+`.shadowMapDepth`,d.map.depthTexture.format=oi,d.map.depthTexture.compareFunction=null,d.map.depthTexture.minFilter=Rr,d.map.depthTexture.magFilter=Rr}else l.isPointLight?(d.map=new ku(i.x),d.map.depthTexture=new Hc(i.x,Yr)):(d.map=new ho(i.x,i.y),d.map.depthTexture=new Vc(i.x,i.y,Yr)),d.map.depthTexture.name=l.name+`.shadowMap`,d.map.depthTexture.format=oi,this.type===1?(d.map.depthTexture.compareFunction=h?518:515,d.map.depthTexture.minFilter=Vr,d.map.depthTexture.magFilter=Vr):(d.map.depthTexture.compareFunction=null,d.map.depthTexture.minFilter=Rr,d.map.depthTexture.magFilter=Rr);d.camera.updateProjectionMatrix()}d.map.isWebGLCubeRenderTarget!==!0&&(d.map.width!==i.x||d.map.height!==i.y)&&d.map.setSize(i.x,i.y);let g=d.map.isWebGLCubeRenderTarget?6:d.getViewportCount();l.isPointLight!==!0&&d.updateMatrices(l,s);let _=d.camera.layers.mask&4294967294?d.camera.layers:s.layers;for(let t=0;t<g;t++){let i=d.getCamera(t);if(l.isPointLight){let e=d.camera,n=d.matrix,r=l.distance||e.far;r!==e.far&&(e.far=r,e.updateProjectionMatrix()),dp.setFromMatrixPosition(l.matrixWorld),e.position.copy(dp),fp.copy(e.position),fp.add(cp[t]),e.up.copy(lp[t]),e.lookAt(fp),e.updateMatrixWorld(),n.makeTranslation(-dp.x,-dp.y,-dp.z),up.multiplyMatrices(e.projectionMatrix,e.matrixWorldInverse),d._frustum.setFromProjectionMatrix(up,e.coordinateSystem,e.reversedDepth)}if(d.map.isWebGLCubeRenderTarget)e.setRenderTarget(d.map,t),e.clear();else{t===0&&(e.setRenderTarget(d.map),e.clear());let n=d.getViewport(t);o.set(a.x*n.x,a.y*n.y,a.x*n.z,a.y*n.w),f.viewport(o)}r=d.getFrustum(t),b(n,s,i,l,_,this.type)}d.isPointLightShadow!==!0&&this.type===3&&v(d,s),d.needsUpdate=!1}_=this.type,g.needsUpdate=!1,e.setRenderTarget(c,l,d)};function v(n,r){let a=t.update(h);f.defines.VSM_SAMPLES!==n.blurSamples&&(f.defines.VSM_SAMPLES=n.blurSamples,p.defines.VSM_SAMPLES=n.blurSamples,f.needsUpdate=!0,p.needsUpdate=!0),n.mapPass===null?n.mapPass=new ho(i.x,i.y,{format:ui,type:Zr}):(n.mapPass.width!==n.map.width||n.mapPass.height!==n.map.height)&&n.mapPass.setSize(n.map.width,n.map.height),f.uniforms.shadow_pass.value=n.map.depthTexture,f.uniforms.resolution.value.set(n.map.width,n.map.height),f.uniforms.radius.value=n.radius,e.setRenderTarget(n.mapPass),e.clear(),e.renderBufferDirect(r,null,a,f,h,null),p.uniforms.shadow_pass.value=n.mapPass.texture,p.uniforms.resolution.value.set(n.map.width,n.map.height),p.uniforms.radius.value=n.radius,e.setRenderTarget(n.map),e.clear(),e.renderBufferDirect(r,null,a,p,h,null)}function y(t,n,r,i){let a=null,o=r.isPointLight===!0?t.customDistanceMaterial:t.customDepthMaterial;if(o!==void 0)a=o;else if(a=r.isPointLight===!0?c:s,e.localClippingEnabled&&n.clipShadows===!0&&Array.isArray(n.clippingPlanes)&&n.clippingPlanes.length!==0||n.displacementMap&&n.displacementScale!==0||n.alphaMap&&n.alphaTest>0||n.map&&n.alphaTest>0||n.alphaToCoverage===!0){let e=a.uuid,t=n.uuid,r=l[e];r===void 0&&(r={},l[e]=r);let i=r[t];i===void 0&&(i=a.clone(),r[t]=i,n.addEventListener(`dispose`,x)),a=i}if(a.visible=n.visible,a.wireframe=n.wireframe,i===3?a.side=n.shadowSide===null?n.side:n.shadowSide:a.side=n.shadowSide===null?d[n.side]:n.shadowSide,a.alphaMap=n.alphaMap,a.alphaTest=n.alphaToCoverage===!0?.5:n.alphaTest,a.map=n.map,a.clipShadows=n.clipShadows,a.clippingPlanes=n.clippingPlanes,a.clipIntersection=n.clipIntersection,a.displacementMap=n.displacementMap,a.displacementScale=n.displacementScale,a.displacementBias=n.displacementBias,a.wireframeLinewidth=n.wireframeLinewidth,a.linewidth=n.linewidth,r.isPointLight===!0&&a.isMeshDistanceMaterial===!0){let t=e.properties.get(a);t.light=r}return a}function b(n,i,a,o,s,c){if(n.visible===!1)return;if(n.layers.test(s)&&(n.isMesh||n.isLine||n.isPoints)&&(n.castShadow||n.receiveShadow&&c===3)&&(!n.frustumCulled||n.intersectsFrustum(r))){n.modelViewMatrix.multiplyMatrices(a.matrixWorldInverse,n.matrixWorld);let r=t.update(n),s=n.material;if(Array.isArray(s)){let t=r.groups;for(let l=0,u=t.length;l<u;l++){let u=t[l],d=s[u.materialIndex];if(d&&d.visible){let t=y(n,d,o,c);n.onBeforeShadow(e,n,i,a,r,t,u),e.renderBufferDirect(a,null,r,t,n,u),n.onAfterShadow(e,n,i,a,r,t,u)}}}else if(s.visible){let t=y(n,s,o,c);n.onBeforeShadow(e,n,i,a,r,t,null),e.renderBufferDirect(a,null,r,t,n,null),n.onAfterShadow(e,n,i,a,r,t,null)}}let l=n.children;for(let e=0,t=l.length;e<t;e++)b(l[e],i,a,o,s,c)}function x(e){e.target.removeEventListener(`dispose`,x);for(let t in l){let n=l[t],r=e.target.uuid;r in n&&(n[r].dispose(),delete n[r])}}}function mp(e,t){function n(){let t=!1,n=new po,r=null,i=new po(0,0,0,0);return{setMask:function(n){r!==n&&!t&&(e.colorMask(n,n,n,n),r=n)},setLocked:function(e){t=e},setClear:function(t,r,a,o,s){s===!0&&(t*=o,r*=o,a*=o),n.set(t,r,a,o),i.equals(n)===!1&&(e.clearColor(t,r,a,o),i.copy(n))},reset:function(){t=!1,r=null,i.set(-1,0,0,0)}}}function r(){let n=!1,r=!1,i=null,a=null,o=null;return{setReversed:function(e){if(r!==e){let n=t.get(`EXT_clip_control`);e?n.clipControlEXT(n.LOWER_LEFT_EXT,n.ZERO_TO_ONE_EXT):n.clipControlEXT(n.LOWER_LEFT_EXT,n.NEGATIVE_ONE_TO_ONE_EXT),r=e;let i=o;o=null,this.setClear(i)}},getReversed:function(){return r},setTest:function(t){t?ue(e.DEPTH_TEST):de(e.DEPTH_TEST)},setMask:function(t){i!==t&&!n&&(e.depthMask(t),i=t)},setFunc:function(t){if(r&&(t=ya[t]),a!==t){switch(t){case 0:e.depthFunc(e.NEVER);break;case 1:e.depthFunc(e.ALWAYS);break;case 2:e.depthFunc(e.LESS);break;case 3:e.depthFunc(e.LEQUAL);break;case 4:e.depthFunc(e.EQUAL);break;case 5:e.depthFunc(e.GEQUAL);break;case 6:e.depthFunc(e.GREATER);break;case 7:e.depthFunc(e.NOTEQUAL);break;default:e.depthFunc(e.LEQUAL)}a=t}},setLocked:function(e){n=e},setClear:function(t){o!==t&&(o=t,r&&(t=1-t),e.clearDepth(t))},reset:function(){n=!1,i=null,a=null,o=null,r=!1}}}function i(){let t=!1,n=null,r=null,i=null,a=null,o=null,s=null,c=null,l=null;return{setTest:function(n){t||(n?ue(e.STENCIL_TEST):de(e.STENCIL_TEST))},setMask:function(r){n!==r&&!t&&(e.stencilMask(r),n=r)},setFunc:function(t,n,o){(r!==t||i!==n||a!==o)&&(e.stencilFunc(t,n,o),r=t,i=n,a=o)},setOp:function(t,n,r){(o!==t||s!==n||c!==r)&&(e.stencilOp(t,n,r),o=t,s=n,c=r)},setLocked:function(e){t=e},setClear:function(t){l!==t&&(e.clearStencil(t),l=t)},reset:function(){t=!1,n=null,r=null,i=null,a=null,o=null,s=null,c=null,l=null}}}let a=new n,o=new r,s=new i,c={},l=new WeakMap,u={},d={},f={},p=new WeakMap,m=[],h=null,g=!1,_=null,v=null,y=null,b=null,x=null,S=null,C=null,w=new $o(0,0,0),T=0,E=!1,D=null,O=null,k=null,A=null,j=null,ee=e.getParameter(e.MAX_COMBINED_TEXTURE_IMAGE_UNITS),M=!1,N=0,te=e.getParameter(e.VERSION);te.indexOf(`WebGL`)===-1?te.indexOf(`OpenGL ES`)!==-1&&(N=parseFloat(/^OpenGL ES (\d)/.exec(te)[1]),M=N>=2):(N=parseFloat(/^WebGL (\d)/.exec(te)[1]),M=N>=1);let ne=null,re={},ie=e.getParameter(e.SCISSOR_BOX),ae=e.getParameter(e.VIEWPORT),oe=new po().fromArray(ie),se=new po().fromArray(ae);function ce(t,n,r,i){let a=new Uint8Array(4),o=e.createTexture();e.bindTexture(t,o),e.texParameteri(t,e.TEXTURE_MIN_FILTER,e.NEAREST),e.texParameteri(t,e.TEXTURE_MAG_FILTER,e.NEAREST);for(let o=0;o<r;o++)t===e.TEXTURE_3D||t===e.TEXTURE_2D_ARRAY?e.texImage3D(n,0,e.RGBA,1,1,i,0,e.RGBA,e.UNSIGNED_BYTE,a):e.texImage2D(n+o,0,e.RGBA,1,1,0,e.RGBA,e.UNSIGNED_BYTE,a);return o}let le={};le[e.TEXTURE_2D]=ce(e.TEXTURE_2D,e.TEXTURE_2D,1),le[e.TEXTURE_CUBE_MAP]=ce(e.TEXTURE_CUBE_MAP,e.TEXTURE_CUBE_MAP_POSITIVE_X,6),le[e.TEXTURE_2D_ARRAY]=ce(e.TEXTURE_2D_ARRAY,e.TEXTURE_2D_ARRAY,1,1),le[e.TEXTURE_3D]=ce(e.TEXTURE_3D,e.TEXTURE_3D,1,1),a.setClear(0,0,0,1),o.setClear(1),s.setClear(0),ue(e.DEPTH_TEST),o.setFunc(3),ve(!1),ye(1),ue(e.CULL_FACE),P(0);function ue(t){u[t]!==!0&&(e.enable(t),u[t]=!0)}function de(t){u[t]!==!1&&(e.disable(t),u[t]=!1)}function fe(t,n){return f[t]!==n&&(e.bindFramebuffer(t,n),f[t]=n,t===e.DRAW_FRAMEBUFFER&&(f[e.FRAMEBUFFER]=n),t===e.FRAMEBUFFER&&(f[e.DRAW_FRAMEBUFFER]=n),!0)}function pe(t,n){let r=m,i=!1;if(t){r=p.get(n),r===void 0&&(r=[],p.set(n,r));let a=t.textures;if(r.length!==a.length||r[0]!==e.COLOR_ATTACHMENT0){for(let t=0,n=a.length;t<n;t++)r[t]=e.COLOR_ATTACHMENT0+t;r.length=a.length,i=!0}}else r[0]!==e.BACK&&(r[0]=e.BACK,i=!0);i&&e.drawBuffers(r)}function me(t){return h!==t&&(e.useProgram(t),h=t,!0)}let he={100:e.FUNC_ADD,101:e.FUNC_SUBTRACT,102:e.FUNC_REVERSE_SUBTRACT};he[103]=e.MIN,he[104]=e.MAX;let ge={200:e.ZERO,201:e.ONE,202:e.SRC_COLOR,204:e.SRC_ALPHA,210:e.SRC_ALPHA_SATURATE,208:e.DST_COLOR,206:e.DST_ALPHA,203:e.ONE_MINUS_SRC_COLOR,205:e.ONE_MINUS_SRC_ALPHA,209:e.ONE_MINUS_DST_COLOR,207:e.ONE_MINUS_DST_ALPHA,211:e.CONSTANT_COLOR,212:e.ONE_MINUS_CONSTANT_COLOR,213:e.CONSTANT_ALPHA,214:e.ONE_MINUS_CONSTANT_ALPHA};function P(t,n,r,i,a,o,s,c,l,u){if(t===0)g===!0&&(de(e.BLEND),g=!1);else if(g===!1&&(ue(e.BLEND),g=!0),t!==5){if(t!==_||u!==E){if((v!==100||x!==100)&&(e.blendEquation(e.FUNC_ADD),v=100,x=100),u)switch(t){case 1:e.blendFuncSeparate(e.ONE,e.ONE_MINUS_SRC_ALPHA,e.ONE,e.ONE_MINUS_SRC_ALPHA);break;case 2:e.blendFunc(e.ONE,e.ONE);break;case 3:e.blendFuncSeparate(e.ZERO,e.ONE_MINUS_SRC_COLOR,e.ZERO,e.ONE);break;case 4:e.blendFuncSeparate(e.DST_COLOR,e.ONE_MINUS_SRC_ALPHA,e.ZERO,e.ONE);break;default:q(`WebGLState: Invalid blending: `,t)}else switch(t){case 1:e.blendFuncSeparate(e.SRC_ALPHA,e.ONE_MINUS_SRC_ALPHA,e.ONE,e.ONE_MINUS_SRC_ALPHA);break;case 2:e.blendFuncSeparate(e.SRC_ALPHA,e.ONE,e.ONE,e.ONE);break;case 3:q(`WebGLState: SubtractiveBlending requires material.premultipliedAlpha = true`);break;case 4:q(`WebGLState: MultiplyBlending requires material.premultipliedAlpha = true`);break;default:q(`WebGLState: Invalid blending: `,t)}y=null,b=null,S=null,C=null,w.set(0,0,0),T=0,_=t,E=u}}else a||=n,o||=r,s||=i,(n!==v||a!==x)&&(e.blendEquationSeparate(he[n],he[a]),v=n,x=a),(r!==y||i!==b||o!==S||s!==C)&&(e.blendFuncSeparate(ge[r],ge[i],ge[o],ge[s]),y=r,b=i,S=o,C=s),(c.equals(w)===!1||l!==T)&&(e.blendColor(c.r,c.g,c.b,l),w.copy(c),T=l),_=t,E=!1}function _e(t,n){t.side===2?de(e.CULL_FACE):ue(e.CULL_FACE);let r=t.side===1;n&&(r=!r),ve(r),t.blending===1&&t.transparent===!1?P(0):P(t.blending,t.blendEquation,t.blendSrc,t.blendDst,t.blendEquationAlpha,t.blendSrcAlpha,t.blendDstAlpha,t.blendColor,t.blendAlpha,t.premultipliedAlpha),o.setFunc(t.depthFunc),o.setTest(t.depthTest),o.setMask(t.depthWrite),a.setMask(t.colorWrite);let i=t.stencilWrite;s.setTest(i),i&&(s.setMask(t.stencilWriteMask),s.setFunc(t.stencilFunc,t.stencilRef,t.stencilFuncMask),s.setOp(t.stencilFail,t.stencilZFail,t.stencilZPass)),xe(t.polygonOffset,t.polygonOffsetFactor,t.polygonOffsetUnits),t.alphaToCoverage===!0?ue(e.SAMPLE_ALPHA_TO_COVERAGE):de(e.SAMPLE_ALPHA_TO_COVERAGE)}function ve(t){D!==t&&(t?e.frontFace(e.CW):e.frontFace(e.CCW),D=t)}function ye(t){t===0?de(e.CULL_FACE):(ue(e.CULL_FACE),t!==O&&(t===1?e.cullFace(e.BACK):t===2?e.cullFace(e.FRONT):e.cullFace(e.FRONT_AND_BACK))),O=t}function be(t){t!==k&&(M&&e.lineWidth(t),k=t)}function xe(t,n,r){t?(ue(e.POLYGON_OFFSET_FILL),(A!==n||j!==r)&&(A=n,j=r,o.getReversed()&&(n=-n,r=-r),e.polygonOffset(n,r))):de(e.POLYGON_OFFSET_FILL)}function Se(t){t?ue(e.SCISSOR_TEST):de(e.SCISSOR_TEST)}function Ce(t){t===void 0&&(t=e.TEXTURE0+ee-1),ne!==t&&(e.activeTexture(t),ne=t)}function F(t,n,r){r===void 0&&(r=ne===null?e.TEXTURE0+ee-1:ne);let i=re[r];i===void 0&&(i={type:void 0,texture:void 0},re[r]=i),(i.type!==t||i.texture!==n)&&(ne!==r&&(e.activeTexture(r),ne=r),e.bindTexture(t,n||le[t]),i.type=t,i.texture=n)}function we(){let t=re[ne];t!==void 0&&t.type!==void 0&&(e.bindTexture(t.type,null),t.type=void 0,t.texture=void 0)}function Te(){try{e.compressedTexImage2D(...arguments)}catch(e){q(`WebGLState:`,e)}}function Ee(){try{e.compressedTexImage3D(...arguments)}catch(e){q(`WebGLState:`,e)}}function I(){try{e.texSubImage2D(...arguments)}catch(e){q(`WebGLState:`,e)}}function De(){try{e.texSubImage3D(...arguments)}catch(e){q(`WebGLState:`,e)}}function L(){try{e.compressedTexSubImage2D(...arguments)}catch(e){q(`WebGLState:`,e)}}function R(){try{e.compressedTexSubImage3D(...arguments)}catch(e){q(`WebGLState:`,e)}}function Oe(){try{e.texStorage2D(...arguments)}catch(e){q(`WebGLState:`,e)}}function ke(){try{e.texStorage3D(...arguments)}catch(e){q(`WebGLState:`,e)}}function Ae(){try{e.texImage2D(...arguments)}catch(e){q(`WebGLState:`,e)}}function je(){try{e.texImage3D(...arguments)}catch(e){q(`WebGLState:`,e)}}function Me(t){return d[t]===void 0?e.getParameter(t):d[t]}function Ne(t,n){d[t]!==n&&(e.pixelStorei(t,n),d[t]=n)}function Pe(t){oe.equals(t)===!1&&(e.scissor(t.x,t.y,t.z,t.w),oe.copy(t))}function Fe(t){se.equals(t)===!1&&(e.viewport(t.x,t.y,t.z,t.w),se.copy(t))}function Ie(t,n){let r=l.get(n);r===void 0&&(r=new WeakMap,l.set(n,r));let i=r.get(t);i===void 0&&(i=e.getUniformBlockIndex(n,t.name),e.uniformBlockBinding(n,i,i),r.set(t,i))}function Le(t,n,r){let i=l.get(n).get(t);c[i]!==r&&(e.bindBufferBase(e.UNIFORM_BUFFER,i,r),c[i]=r)}function Re(){e.disable(e.BLEND),e.disable(e.CULL_FACE),e.disable(e.DEPTH_TEST),e.disable(e.POLYGON_OFFSET_FILL),e.disable(e.SCISSOR_TEST),e.disable(e.STENCIL_TEST),e.disable(e.SAMPLE_ALPHA_TO_COVERAGE),e.blendEquation(e.FUNC_ADD),e.blendFunc(e.ONE,e.ZERO),e.blendFuncSeparate(e.ONE,e.ZERO,e.ONE,e.ZERO),e.blendColor(0,0,0,0),e.colorMask(!0,!0,!0,!0),e.clearColor(0,0,0,0),e.depthMask(!0),e.depthFunc(e.LESS),o.setReversed(!1),e.clearDepth(1),e.stencilMask(4294967295),e.stencilFunc(e.ALWAYS,0,4294967295),e.stencilOp(e.KEEP,e.KEEP,e.KEEP),e.clearStencil(0),e.cullFace(e.BACK),e.frontFace(e.CCW),e.polygonOffset(0,0),e.activeTexture(e.TEXTURE0),e.bindFramebuffer(e.FRAMEBUFFER,null),e.bindFramebuffer(e.DRAW_FRAMEBUFFER,null),e.bindFramebuffer(e.READ_FRAMEBUFFER,null),e.useProgram(null),e.lineWidth(1),e.scissor(0,0,e.canvas.width,e.canvas.height),e.viewport(0,0,e.canvas.width,e.canvas.height),e.pixelStorei(e.PACK_ALIGNMENT,4),e.pixelStorei(e.UNPACK_ALIGNMENT,4),e.pixelStorei(e.UNPACK_FLIP_Y_WEBGL,!1),e.pixelStorei(e.UNPACK_PREMULTIPLY_ALPHA_WEBGL,!1),e.pixelStorei(e.UNPACK_COLORSPACE_CONVERSION_WEBGL,e.BROWSER_DEFAULT_WEBGL),e.pixelStorei(e.PACK_ROW_LENGTH,0),e.pixelStorei(e.PACK_SKIP_PIXELS,0),e.pixelStorei(e.PACK_SKIP_ROWS,0),e.pixelStorei(e.UNPACK_ROW_LENGTH,0),e.pixelStorei(e.UNPACK_IMAGE_HEIGHT,0),e.pixelStorei(e.UNPACK_SKIP_PIXELS,0),e.pixelStorei(e.UNPACK_SKIP_ROWS,0),e.pixelStorei(e.UNPACK_SKIP_IMAGES,0),u={},d={},ne=null,re={},f={},c={},p=new WeakMap,m=[],h=null,g=!1,_=null,v=null,y=null,b=null,x=null,S=null,C=null,w=new $o(0,0,0),T=0,E=!1,D=null,O=null,k=null,A=null,j=null,oe.set(0,0,e.canvas.width,e.canvas.height),se.set(0,0,e.canvas.width,e.canvas.height),a.reset(),o.reset(),s.reset()}return{buffers:{color:a,depth:o,stencil:s},enable:ue,disable:de,bindFramebuffer:fe,drawBuffers:pe,useProgram:me,setBlending:P,setMaterial:_e,setFlipSided:ve,setCullFace:ye,setLineWidth:be,setPolygonOffset:xe,setScissorTest:Se,activeTexture:Ce,bindTexture:F,unbindTexture:we,compressedTexImage2D:Te,compressedTexImage3D:Ee,texImage2D:Ae,texImage3D:je,pixelStorei:Ne,getParameter:Me,updateUBOMapping:Ie,uniformBlockBinding:Le,texStorage2D:Oe,texStorage3D:ke,texSubImage2D:I,texSubImage3D:De,compressedTexSubImage2D:L,compressedTexSubImage3D:R,scissor:Pe,viewport:Fe,reset:Re}}function hp(e,t,n,r,i,a,o){let s=t.has(`WEBGL_multisampled_render_to_texture`)?t.get(`WEBGL_multisampled_render_to_texture`):null,c=typeof navigator>`u`?!1:/OculusBrowser/g.test(navigator.userAgent),l=new Y,u=new WeakMap,d=new Set,f,p=new WeakMap,m=new Set,h=new FinalizationRegistry(e=>m.delete(e)),g=!1;try{g=typeof OffscreenCanvas<`u`&&new OffscreenCanvas(1,1).getContext(`2d`)!==null}catch{}function _(e,t){return g?new OffscreenCanvas(e,t):fa(`canvas`)}function v(e,t,n){let r=1,i=Oe(e);if((i.width>n||i.height>n)&&(r=n/Math.max(i.width,i.height)),r<1){if(typeof HTMLImageElement<`u`&&e instanceof HTMLImageElement||typeof HTMLCanvasElement<`u`&&e instanceof HTMLCanvasElement||typeof ImageBitmap<`u`&&e instanceof ImageBitmap||typeof VideoFrame<`u`&&e instanceof VideoFrame){let n=Math.floor(r*i.width),a=Math.floor(r*i.height);f===void 0&&(f=_(n,a));let o=t?_(n,a):f;return o.width=n,o.height=a,o.getContext(`2d`).drawImage(e,0,0,n,a),K(`WebGLRenderer: Texture has been resized from (`+i.width+`x`+i.height+`) to (`+n+`x`+a+`).`),o}return`data`in e&&K(`WebGLRenderer: Image in DataTexture is too big (`+i.width+`x`+i.height+`).`),e}return e}function y(e){return e.generateMipmaps}function b(t){e.generateMipmap(t)}function x(t){return t.isWebGLCubeRenderTarget?e.TEXTURE_CUBE_MAP:t.isWebGL3DRenderTarget?e.TEXTURE_3D:t.isWebGLArrayRenderTarget||t.isCompressedArrayTexture?e.TEXTURE_2D_ARRAY:e.TEXTURE_2D}function S(n,r,i,a,o,s=!1){if(n!==null){if(e[n]!==void 0)return e[n];K(`WebGLRenderer: Attempt to use non-existing WebGL internal format '`+n+`'`)}let c;a&&(c=t.get(`EXT_texture_norm16`),c||K(`WebGLRenderer: Unable to use normalized textures without EXT_texture_norm16 extension`));let l=r;if(r===e.RED&&(i===e.FLOAT&&(l=e.R32F),i===e.HALF_FLOAT&&(l=e.R16F),i===e.UNSIGNED_BYTE&&(l=e.R8),i===e.UNSIGNED_SHORT&&c&&(l=c.R16_EXT),i===e.SHORT&&c&&(l=c.R16_SNORM_EXT)),r===e.RED_INTEGER&&(i===e.UNSIGNED_BYTE&&(l=e.R8UI),i===e.UNSIGNED_SHORT&&(l=e.R16UI),i===e.UNSIGNED_INT&&(l=e.R32UI),i===e.BYTE&&(l=e.R8I),i===e.SHORT&&(l=e.R16I),i===e.INT&&(l=e.R32I)),r===e.RG&&(i===e.FLOAT&&(l=e.RG32F),i===e.HALF_FLOAT&&(l=e.RG16F),i===e.UNSIGNED_BYTE&&(l=e.RG8),i===e.UNSIGNED_SHORT&&c&&(l=c.RG16_EXT),i===e.SHORT&&c&&(l=c.RG16_SNORM_EXT)),r===e.RG_INTEGER&&(i===e.UNSIGNED_BYTE&&(l=e.RG8UI),i===e.UNSIGNED_SHORT&&(l=e.RG16UI),i===e.UNSIGNED_INT&&(l=e.RG32UI),i===e.BYTE&&(l=e.RG8I),i===e.SHORT&&(l=e.RG16I),i===e.INT&&(l=e.RG32I)),r===e.RGB_INTEGER&&(i===e.UNSIGNED_BYTE&&(l=e.RGB8UI),i===e.UNSIGNED_SHORT&&(l=e.RGB16UI),i===e.UNSIGNED_INT&&(l=e.RGB32UI),i===e.BYTE&&(l=e.RGB8I),i===e.SHORT&&(l=e.RGB16I),i===e.INT&&(l=e.RGB32I)),r===e.RGBA_INTEGER&&(i===e.UNSIGNED_BYTE&&(l=e.RGBA8UI),i===e.UNSIGNED_SHORT&&(l=e.RGBA16UI),i===e.UNSIGNED_INT&&(l=e.RGBA32UI),i===e.BYTE&&(l=e.RGBA8I),i===e.SHORT&&(l=e.RGBA16I),i===e.INT&&(l=e.RGBA32I)),r===e.RGB&&(i===e.UNSIGNED_SHORT&&c&&(l=c.RGB16_EXT),i===e.SHORT&&c&&(l=c.RGB16_SNORM_EXT),i===e.UNSIGNED_INT_5_9_9_9_REV&&(l=e.RGB9_E5),i===e.UNSIGNED_INT_10F_11F_11F_REV&&(l=e.R11F_G11F_B10F)),r===e.RGBA){let t=s?aa:to.getTransfer(o);i===e.FLOAT&&(l=e.RGBA32F),i===e.HALF_FLOAT&&(l=e.RGBA16F),i===e.UNSIGNED_BYTE&&(l=t===`srgb`?e.SRGB8_ALPHA8:e.RGBA8),i===e.UNSIGNED_SHORT&&c&&(l=c.RGBA16_EXT),i===e.SHORT&&c&&(l=c.RGBA16_SNORM_EXT),i===e.UNSIGNED_SHORT_4_4_4_4&&(l=e.RGBA4),i===e.UNSIGNED_SHORT_5_5_5_1&&(l=e.RGB5_A1)}return(l===e.R16F||l===e.R32F||l===e.RG16F||l===e.RG32F||l===e.RGBA16F||l===e.RGBA32F)&&t.get(`EXT_color_buffer_float`),l}function C(t,n){let r;return t?n===null||n===1014||n===1020?r=e.DEPTH24_STENCIL8:n===1015?r=e.DEPTH32F_STENCIL8:n===1012&&(r=e.DEPTH24_STENCIL8,K(`DepthTexture: 16 bit depth attachment is not supported with stencil. Using 24-bit attachment.`)):n===null||n===1014||n===1020?r=e.DEPTH_COMPONENT24:n===1015?r=e.DEPTH_COMPONENT32F:n===1012&&(r=e.DEPTH_COMPONENT16),r}function w(e,t){return y(e)===!0||e.isFramebufferTexture&&e.minFilter!==1003&&e.minFilter!==1006?Math.log2(Math.max(t.width,t.height))+1:e.mipmaps.length>0?e.mipmaps.length:e.isCompressedTexture&&Array.isArray(e.image)?t.mipmaps.length:1}function T(e){let t=new WeakRef(e);r.get(e).__ref=t,m.add(t),h.register(e,t,t)}function E(e){let t=r.get(e).__ref;t!==void 0&&(m.delete(t),h.unregister(t))}function D(e){k(e.target)}function O(e){A(e.target)}function k(e){e.removeEventListener(`dispose`,D),E(e),ee(e),e.isVideoTexture&&u.delete(e),e.isHTMLTexture&&d.delete(e)}function A(e){e.removeEventListener(`dispose`,O),E(e),N(e)}function j(){for(let e of m){let t=e.deref();t!==void 0&&(t.isRenderTarget===!0?A(t):k(t))}m.clear(),d.clear()}function ee(e){let t=r.get(e);if(t.__webglInit===void 0)return;let n=e.source,i=p.get(n);if(i){let r=i[t.__cacheKey];r.usedTimes--,r.usedTimes===0&&M(e),Object.keys(i).length===0&&p.delete(n)}r.remove(e)}function M(t){let n=r.get(t);e.deleteTexture(n.__webglTexture);let i=t.source,a=p.get(i);delete a[n.__cacheKey],o.memory.textures--}function N(t){let n=r.get(t);n.__depthDisposeCallback&&n.__depthDisposeCallback();let i=t.depthTexture;if(i&&i.renderTarget===t&&k(i),t.isWebGLCubeRenderTarget)for(let t=0;t<6;t++){if(Array.isArray(n.__webglFramebuffer[t]))for(let r=0;r<n.__webglFramebuffer[t].length;r++)e.deleteFramebuffer(n.__webglFramebuffer[t][r]);else e.deleteFramebuffer(n.__webglFramebuffer[t]);n.__webglDepthbuffer&&e.deleteRenderbuffer(n.__webglDepthbuffer[t])}else{if(Array.isArray(n.__webglFramebuffer))for(let t=0;t<n.__webglFramebuffer.length;t++)e.deleteFramebuffer(n.__webglFramebuffer[t]);else e.deleteFramebuffer(n.__webglFramebuffer);if(n.__webglDepthbuffer&&e.deleteRenderbuffer(n.__webglDepthbuffer),n.__webglMultisampledFramebuffer&&e.deleteFramebuffer(n.__webglMultisampledFramebuffer),n.__webglColorRenderbuffer)for(let t=0;t<n.__webglColorRenderbuffer.length;t++)n.__webglColorRenderbuffer[t]&&e.deleteRenderbuffer(n.__webglColorRenderbuffer[t]);n.__webglDepthRenderbuffer&&e.deleteRenderbuffer(n.__webglDepthRenderbuffer)}let a=t.textures;for(let t=0,n=a.length;t<n;t++){let n=r.get(a[t]);n.__webglTexture&&(e.deleteTexture(n.__webglTexture),o.memory.textures--),r.remove(a[t])}r.remove(t)}let te=0;function ne(){te=0}function re(){return te}function ie(e){te=e}function ae(){let e=te;return e>=i.maxTextures&&K(`WebGLTextures: Trying to use `+(e+1)+` texture units while this GPU supports only `+i.maxTextures),te+=1,e}function oe(e){let t=[];return t.push(e.wrapS),t.push(e.wrapT),t.push(e.wrapR||0),t.push(e.magFilter),t.push(e.minFilter),t.push(e.anisotropy),t.push(e.internalFormat),t.push(e.format),t.push(e.type),t.push(e.generateMipmaps),t.push(e.mipmapsAutoUpdate),t.push(e.premultiplyAlpha),t.push(e.flipY),t.push(e.unpackAlignment),t.push(e.colorSpace),t.join()}function se(t,i){let a=r.get(t);if(t.isVideoTexture&&L(t),t.isRenderTargetTexture===!1&&t.isExternalTexture!==!0&&t.version>0&&a.__version!==t.version){let e=t.image;if(e===null)K(`WebGLRenderer: Texture marked for update but no image data found.`);else if(e.complete===!1)K(`WebGLRenderer: Texture marked for update but image is incomplete`);else{_e(a,t,i);return}}else t.isExternalTexture&&(a.__webglTexture=t.sourceTexture?t.sourceTexture:null);n.bindTexture(e.TEXTURE_2D,a.__webglTexture,e.TEXTURE0+i)}function ce(t,i){let a=r.get(t);t.isRenderTargetTexture===!1&&t.version>0&&a.__version!==t.version?_e(a,t,i):(t.isExternalTexture&&(a.__webglTexture=t.sourceTexture?t.sourceTexture:null),n.bindTexture(e.TEXTURE_2D_ARRAY,a.__webglTexture,e.TEXTURE0+i))}function le(t,i){let a=r.get(t);t.isRenderTargetTexture===!1&&t.version>0&&a.__version!==t.version?_e(a,t,i):n.bindTexture(e.TEXTURE_3D,a.__webglTexture,e.TEXTURE0+i)}function ue(t,i){let a=r.get(t);t.version>0&&a.__version!==t.version?ve(a,t,i):n.bindTexture(e.TEXTURE_CUBE_MAP,a.__webglTexture,e.TEXTURE0+i)}let de={[Fr]:e.REPEAT,[Ir]:e.CLAMP_TO_EDGE,[Lr]:e.MIRRORED_REPEAT},fe={[Rr]:e.NEAREST,[zr]:e.NEAREST_MIPMAP_NEAREST,[Br]:e.NEAREST_MIPMAP_LINEAR,[Vr]:e.LINEAR,[Hr]:e.LINEAR_MIPMAP_NEAREST,[Ur]:e.LINEAR_MIPMAP_LINEAR},pe={512:e.NEVER,519:e.ALWAYS,513:e.LESS,515:e.LEQUAL,514:e.EQUAL,518:e.GEQUAL,516:e.GREATER,517:e.NOTEQUAL};function me(n,a){if(a.type===1015&&t.has(`OES_texture_float_linear`)===!1&&(a.magFilter===1006||a.magFilter===1007||a.magFilter===1005||a.magFilter===1008||a.minFilter===1006||a.minFilter===1007||a.minFilter===1005||a.minFilter===1008)&&K(`WebGLRenderer: Unable to use linear filtering with floating point textures. OES_texture_float_linear not supported on this device.`),e.texParameteri(n,e.TEXTURE_WRAP_S,de[a.wrapS]),e.texParameteri(n,e.TEXTURE_WRAP_T,de[a.wrapT]),(n===e.TEXTURE_3D||n===e.TEXTURE_2D_ARRAY)&&e.texParameteri(n,e.TEXTURE_WRAP_R,de[a.wrapR]),e.texParameteri(n,e.TEXTURE_MAG_FILTER,fe[a.magFilter]),e.texParameteri(n,e.TEXTURE_MIN_FILTER,fe[a.minFilter]),a.compareFunction&&(e.texParameteri(n,e.TEXTURE_COMPARE_MODE,e.COMPARE_REF_TO_TEXTURE),e.texParameteri(n,e.TEXTURE_COMPARE_FUNC,pe[a.compareFunction])),t.has(`EXT_texture_filter_anisotropic`)===!0){if(a.magFilter===1003||a.minFilter!==1005&&a.minFilter!==1008||a.type===1015&&t.has(`OES_texture_float_linear`)===!1)return;if(a.anisotropy>1||r.get(a).__currentAnisotropy){let o=t.get(`EXT_texture_filter_anisotropic`);e.texParameterf(n,o.TEXTURE_MAX_ANISOTROPY_EXT,Math.min(a.anisotropy,i.getMaxAnisotropy())),r.get(a).__currentAnisotropy=a.anisotropy}}}function he(t,n){let r=!1;t.__webglInit===void 0&&(t.__webglInit=!0,n.addEventListener(`dispose`,D),T(n));let i=n.source,a=p.get(i);a===void 0&&(a={},p.set(i,a));let s=oe(n);if(s!==t.__cacheKey){a[s]===void 0&&(a[s]={texture:e.createTexture(),usedTimes:0},o.memory.textures++,r=!0),a[s].usedTimes++;let i=a[t.__cacheKey];i!==void 0&&(a[t.__cacheKey].usedTimes--,i.usedTimes===0&&M(n)),t.__cacheKey=s,t.__webglTexture=a[s].texture}return r}function ge(e,t,n){return Math.floor(Math.floor(e/n)/t)}function P(t,r,i,a){let o=t.updateRanges;if(o.length===0)n.texSubImage2D(e.TEXTURE_2D,0,0,0,r.width,r.height,i,a,r.data);else{o.sort((e,t)=>e.start-t.start);let s=0;for(let e=1;e<o.length;e++){let t=o[s],n=o[e],i=t.start+t.count,a=ge(n.start,r.width,4),c=ge(t.start,r.width,4);n.start<=i+1&&a===c&&ge(n.start+n.count-1,r.width,4)===a?t.count=Math.max(t.count,n.start+n.count-t.start):(++s,o[s]=n)}o.length=s+1;let c=n.getParameter(e.UNPACK_ROW_LENGTH),l=n.getParameter(e.UNPACK_SKIP_PIXELS),u=n.getParameter(e.UNPACK_SKIP_ROWS);n.pixelStorei(e.UNPACK_ROW_LENGTH,r.width);for(let t=0,s=o.length;t<s;t++){let s=o[t],c=Math.floor(s.start/4),l=Math.ceil(s.count/4),u=c%r.width,d=Math.floor(c/r.width),f=l;n.pixelStorei(e.UNPACK_SKIP_PIXELS,u),n.pixelStorei(e.UNPACK_SKIP_ROWS,d),n.texSubImage2D(e.TEXTURE_2D,0,u,d,f,1,i,a,r.data)}t.clearUpdateRanges(),n.pixelStorei(e.UNPACK_ROW_LENGTH,c),n.pixelStorei(e.UNPACK_SKIP_PIXELS,l),n.pixelStorei(e.UNPACK_SKIP_ROWS,u)}}function _e(t,o,s){let c=e.TEXTURE_2D;(o.isDataArrayTexture||o.isCompressedArrayTexture)&&(c=e.TEXTURE_2D_ARRAY),o.isData3DTexture&&(c=e.TEXTURE_3D);let l=he(t,o),u=o.source;n.bindTexture(c,t.__webglTexture,e.TEXTURE0+s);let f=r.get(u);if(u.version!==f.__version||l===!0){if(n.activeTexture(e.TEXTURE0+s),!(typeof ImageBitmap<`u`&&o.image instanceof ImageBitmap)){let t=to.getPrimaries(to.workingColorSpace),r=o.colorSpace===``?null:to.getPrimaries(o.colorSpace),i=o.colorSpace===``||t===r?e.NONE:e.BROWSER_DEFAULT_WEBGL;n.pixelStorei(e.UNPACK_FLIP_Y_WEBGL,o.flipY),n.pixelStorei(e.UNPACK_PREMULTIPLY_ALPHA_WEBGL,o.premultiplyAlpha),n.pixelStorei(e.UNPACK_COLORSPACE_CONVERSION_WEBGL,i)}n.pixelStorei(e.UNPACK_ALIGNMENT,o.unpackAlignment);let t=v(o.image,!1,i.maxTextureSize);t=R(o,t);let r=a.convert(o.format,o.colorSpace),p=a.convert(o.type),m=S(o.internalFormat,r,p,o.normalized,o.colorSpace,o.isVideoTexture);me(c,o);let h,g=o.mipmaps,_=o.isVideoTexture!==!0,x=f.__version===void 0||l===!0,T=u.dataReady,E=w(o,t);if(o.isDepthTexture)m=C(o.format===si,o.type),x&&(_?n.texStorage2D(e.TEXTURE_2D,1,m,t.width,t.height):n.texImage2D(e.TEXTURE_2D,0,m,t.width,t.height,0,r,p,null));else if(o.isDataTexture){if(g.length>0){_&&x&&n.texStorage2D(e.TEXTURE_2D,E,m,g[0].width,g[0].height);for(let t=0,i=g.length;t<i;t++)h=g[t],_?T&&n.texSubImage2D(e.TEXTURE_2D,t,0,0,h.width,h.height,r,p,h.data):n.texImage2D(e.TEXTURE_2D,t,m,h.width,h.height,0,r,p,h.data);o.generateMipmaps=!1}else _?(x&&n.texStorage2D(e.TEXTURE_2D,E,m,t.width,t.height),T&&P(o,t,r,p)):n.texImage2D(e.TEXTURE_2D,0,m,t.width,t.height,0,r,p,t.data)}else if(o.isCompressedTexture){if(o.isCompressedArrayTexture){_&&x&&n.texStorage3D(e.TEXTURE_2D_ARRAY,E,m,g[0].width,g[0].height,t.depth);for(let i=0,a=g.length;i<a;i++)if(h=g[i],o.format!==1023){if(r!==null){if(_){if(T){if(o.layerUpdates.size>0){let t=gu(h.width,h.height,o.format,o.type);for(let a of o.layerUpdates){let o=h.data.subarray(a*t/h.data.BYTES_PER_ELEMENT,(a+1)*t/h.data.BYTES_PER_ELEMENT);n.compressedTexSubImage3D(e.TEXTURE_2D_ARRAY,i,0,0,a,h.width,h.height,1,r,o)}}else n.compressedTexSubImage3D(e.TEXTURE_2D_ARRAY,i,0,0,0,h.width,h.height,t.depth,r,h.data)}}else n.compressedTexImage3D(e.TEXTURE_2D_ARRAY,i,m,h.width,h.height,t.depth,0,h.data,0,0)}else K(`WebGLRenderer: Attempt to load unsupported compressed texture format in .uploadTexture()`)}else _?T&&n.texSubImage3D(e.TEXTURE_2D_ARRAY,i,0,0,0,h.width,h.height,t.depth,r,p,h.data):n.texImage3D(e.TEXTURE_2D_ARRAY,i,m,h.width,h.height,t.depth,0,r,p,h.data);o.layerUpdates.size>0&&o.clearLayerUpdates()}else{_&&x&&n.texStorage2D(e.TEXTURE_2D,E,m,g[0].width,g[0].height);for(let t=0,i=g.length;t<i;t++)h=g[t],o.format===1023?_?T&&n.texSubImage2D(e.TEXTURE_2D,t,0,0,h.width,h.height,r,p,h.data):n.texImage2D(e.TEXTURE_2D,t,m,h.width,h.height,0,r,p,h.data):r===null?K(`WebGLRenderer: Attempt to load unsupported compressed texture format in .uploadTexture()`):_?T&&n.compressedTexSubImage2D(e.TEXTURE_2D,t,0,0,h.width,h.height,r,h.data):n.compressedTexImage2D(e.TEXTURE_2D,t,m,h.width,h.height,0,h.data)}}else if(o.isDataArrayTexture){if(_){if(x&&n.texStorage3D(e.TEXTURE_2D_ARRAY,E,m,t.width,t.height,t.depth),T){if(o.layerUpdates.size>0){let i=gu(t.width,t.height,o.format,o.type);for(let a of o.layerUpdates){let o=t.data.subarray(a*i/t.data.BYTES_PER_ELEMENT,(a+1)*i/t.data.BYTES_PER_ELEMENT);n.texSubImage3D(e.TEXTURE_2D_ARRAY,0,0,0,a,t.width,t.height,1,r,p,o)}o.clearLayerUpdates()}else n.texSubImage3D(e.TEXTURE_2D_ARRAY,0,0,0,0,t.width,t.height,t.depth,r,p,t.data)}}else n.texImage3D(e.TEXTURE_2D_ARRAY,0,m,t.width,t.height,t.depth,0,r,p,t.data)}else if(o.isData3DTexture)_?(x&&n.texStorage3D(e.TEXTURE_3D,E,m,t.width,t.height,t.depth),T&&n.texSubImage3D(e.TEXTURE_3D,0,0,0,0,t.width,t.height,t.depth,r,p,t.data)):n.texImage3D(e.TEXTURE_3D,0,m,t.width,t.height,t.depth,0,r,p,t.data);else if(o.isFramebufferTexture){if(x){if(_)n.texStorage2D(e.TEXTURE_2D,E,m,t.width,t.height);else{let i=t.width,a=t.height;for(let t=0;t<E;t++)n.texImage2D(e.TEXTURE_2D,t,m,i,a,0,r,p,null),i>>=1,a>>=1}}}else if(o.isHTMLTexture){if(`texElementImage2D`in e){let n=e.canvas;if(n.hasAttribute(`layoutsubtree`)||n.setAttribute(`layoutsubtree`,`true`),t.parentNode!==n){n.appendChild(t),d.add(o),n.onpaint=e=>{let t=e.changedElements;for(let e of d)t.includes(e.image)&&(e.needsUpdate=!0)},n.requestPaint();return}if(e.texElementImage2D.length===3)e.texElementImage2D(e.TEXTURE_2D,e.RGBA8,t);else{let n=e.RGBA,r=e.RGBA,i=e.UNSIGNED_BYTE;e.texElementImage2D(e.TEXTURE_2D,0,n,r,i,t)}e.texParameteri(e.TEXTURE_2D,e.TEXTURE_MIN_FILTER,e.LINEAR),e.texParameteri(e.TEXTURE_2D,e.TEXTURE_WRAP_S,e.CLAMP_TO_EDGE),e.texParameteri(e.TEXTURE_2D,e.TEXTURE_WRAP_T,e.CLAMP_TO_EDGE)}}else if(g.length>0){if(_&&x){let t=Oe(g[0]);n.texStorage2D(e.TEXTURE_2D,E,m,t.width,t.height)}for(let t=0,i=g.length;t<i;t++)h=g[t],_?T&&n.texSubImage2D(e.TEXTURE_2D,t,0,0,r,p,h):n.texImage2D(e.TEXTURE_2D,t,m,r,p,h);o.generateMipmaps=!1}else if(_){if(x){let r=Oe(t);n.texStorage2D(e.TEXTURE_2D,E,m,r.width,r.height)}T&&n.texSubImage2D(e.TEXTURE_2D,0,0,0,r,p,t)}else n.texImage2D(e.TEXTURE_2D,0,m,r,p,t);y(o)&&o.mipmapsAutoUpdate===!0&&b(c),f.__version=u.version,o.onUpdate&&o.onUpdate(o)}t.__version=o.version}function ve(t,o,s){if(o.image.length!==6)return;let c=he(t,o),l=o.source;n.bindTexture(e.TEXTURE_CUBE_MAP,t.__webglTexture,e.TEXTURE0+s);let u=r.get(l);if(l.version!==u.__version||c===!0){n.activeTexture(e.TEXTURE0+s);let t=to.getPrimaries(to.workingColorSpace),r=o.colorSpace===``?null:to.getPrimaries(o.colorSpace),d=o.colorSpace===``||t===r?e.NONE:e.BROWSER_DEFAULT_WEBGL;n.pixelStorei(e.UNPACK_FLIP_Y_WEBGL,o.flipY),n.pixelStorei(e.UNPACK_PREMULTIPLY_ALPHA_WEBGL,o.premultiplyAlpha),n.pixelStorei(e.UNPACK_ALIGNMENT,o.unpackAlignment),n.pixelStorei(e.UNPACK_COLORSPACE_CONVERSION_WEBGL,d);let f=o.isCompressedTexture||o.image[0].isCompressedTexture,p=o.image[0]&&o.image[0].isDataTexture,m=[];for(let e=0;e<6;e++)!f&&!p?m[e]=v(o.image[e],!0,i.maxCubemapSize):m[e]=p?o.image[e].image:o.image[e],m[e]=R(o,m[e]);let h=m[0],g=a.convert(o.format,o.colorSpace),_=a.convert(o.type),x=S(o.internalFormat,g,_,o.normalized,o.colorSpace),T=o.isVideoTexture!==!0,E=u.__version===void 0||c===!0,D=l.dataReady,O=w(o,h);me(e.TEXTURE_CUBE_MAP,o);let k;if(o.isDepthTexture){if(x=C(o.format===si,o.type),E){if(T)n.texStorage2D(e.TEXTURE_CUBE_MAP,1,x,h.width,h.height);else for(let t=0;t<6;t++)n.texImage2D(e.TEXTURE_CUBE_MAP_POSITIVE_X+t,0,x,h.width,h.height,0,g,_,null)}}else if(f){T&&E&&n.texStorage2D(e.TEXTURE_CUBE_MAP,O,x,h.width,h.height);for(let t=0;t<6;t++){k=m[t].mipmaps;for(let r=0;r<k.length;r++){let i=k[r];o.format===1023?T?D&&n.texSubImage2D(e.TEXTURE_CUBE_MAP_POSITIVE_X+t,r,0,0,i.width,i.height,g,_,i.data):n.texImage2D(e.TEXTURE_CUBE_MAP_POSITIVE_X+t,r,x,i.width,i.height,0,g,_,i.data):g===null?K(`WebGLRenderer: Attempt to load unsupported compressed texture format in .setTextureCube()`):T?D&&n.compressedTexSubImage2D(e.TEXTURE_CUBE_MAP_POSITIVE_X+t,r,0,0,i.width,i.height,g,i.data):n.compressedTexImage2D(e.TEXTURE_CUBE_MAP_POSITIVE_X+t,r,x,i.width,i.height,0,i.data)}}}else{if(k=o.mipmaps,T&&E){k.length>0&&O++;let t=Oe(m[0]);n.texStorage2D(e.TEXTURE_CUBE_MAP,O,x,t.width,t.height)}for(let t=0;t<6;t++)if(p){T?D&&n.texSubImage2D(e.TEXTURE_CUBE_MAP_POSITIVE_X+t,0,0,0,m[t].width,m[t].height,g,_,m[t].data):n.texImage2D(e.TEXTURE_CUBE_MAP_POSITIVE_X+t,0,x,m[t].width,m[t].height,0,g,_,m[t].data);for(let r=0;r<k.length;r++){let i=k[r].image[t].image;T?D&&n.texSubImage2D(e.TEXTURE_CUBE_MAP_POSITIVE_X+t,r+1,0,0,i.width,i.height,g,_,i.data):n.texImage2D(e.TEXTURE_CUBE_MAP_POSITIVE_X+t,r+1,x,i.width,i.height,0,g,_,i.data)}}else{T?D&&n.texSubImage2D(e.TEXTURE_CUBE_MAP_POSITIVE_X+t,0,0,0,g,_,m[t]):n.texImage2D(e.TEXTURE_CUBE_MAP_POSITIVE_X+t,0,x,g,_,m[t]);for(let r=0;r<k.length;r++){let i=k[r];T?D&&n.texSubImage2D(e.TEXTURE_CUBE_MAP_POSITIVE_X+t,r+1,0,0,g,_,i.image[t]):n.texImage2D(e.TEXTURE_CUBE_MAP_POSITIVE_X+t,r+1,x,g,_,i.image[t])}}}y(o)&&o.mipmapsAutoUpdate===!0&&b(e.TEXTURE_CUBE_MAP),u.__version=l.version,o.onUpdate&&o.onUpdate(o)}t.__version=o.version}function ye(t,i,o,c,l,u){let d=a.convert(o.format,o.colorSpace),f=a.convert(o.type),p=S(o.internalFormat,d,f,o.normalized,o.colorSpace),m=r.get(i),h=r.get(o);if(h.__renderTarget=i,!m.__hasExternalTextures){let t=Math.max(1,i.width>>u),r=Math.max(1,i.height>>u);l===e.TEXTURE_3D||l===e.TEXTURE_2D_ARRAY?n.texImage3D(l,u,p,t,r,i.depth,0,d,f,null):n.texImage2D(l,u,p,t,r,0,d,f,null)}n.bindFramebuffer(e.FRAMEBUFFER,t),De(i)?s.framebufferTexture2DMultisampleEXT(e.FRAMEBUFFER,c,l,h.__webglTexture,0,I(i)):(l===e.TEXTURE_2D||l>=e.TEXTURE_CUBE_MAP_POSITIVE_X&&l<=e.TEXTURE_CUBE_MAP_NEGATIVE_Z)&&e.framebufferTexture2D(e.FRAMEBUFFER,c,l,h.__webglTexture,u),n.bindFramebuffer(e.FRAMEBUFFER,null)}function be(t,n,r){if(e.bindRenderbuffer(e.RENDERBUFFER,t),n.depthBuffer){let i=n.depthTexture,a=i&&i.isDepthTexture?i.type:null,o=C(n.stencilBuffer,a),c=n.stencilBuffer?e.DEPTH_STENCIL_ATTACHMENT:e.DEPTH_ATTACHMENT;De(n)?s.renderbufferStorageMultisampleEXT(e.RENDERBUFFER,I(n),o,n.width,n.height):r?e.renderbufferStorageMultisample(e.RENDERBUFFER,I(n),o,n.width,n.height):e.renderbufferStorage(e.RENDERBUFFER,o,n.width,n.height),e.framebufferRenderbuffer(e.FRAMEBUFFER,c,e.RENDERBUFFER,t)}else{let t=n.textures;for(let i=0;i<t.length;i++){let o=t[i],c=a.convert(o.format,o.colorSpace),l=a.convert(o.type),u=S(o.internalFormat,c,l,o.normalized,o.colorSpace);De(n)?s.renderbufferStorageMultisampleEXT(e.RENDERBUFFER,I(n),u,n.width,n.height):r?e.renderbufferStorageMultisample(e.RENDERBUFFER,I(n),u,n.width,n.height):e.renderbufferStorage(e.RENDERBUFFER,u,n.width,n.height)}}e.bindRenderbuffer(e.RENDERBUFFER,null)}function xe(t,i,a){let o=i.isWebGLCubeRenderTarget===!0;if(n.bindFramebuffer(e.FRAMEBUFFER,t),!(i.depthTexture&&i.depthTexture.isDepthTexture))throw Error(`THREE.WebGLTextures: renderTarget.depthTexture must be an instance of THREE.DepthTexture.`);let c=r.get(i.depthTexture);c.__renderTarget=i;let l=o?i.depthTexture.image[0]:i.depthTexture.image;c.__webglTexture&&l.width===i.width&&l.height===i.height||(l.width=i.width,l.height=i.height,i.depthTexture.needsUpdate=!0),o?ue(i.depthTexture,0):se(i.depthTexture,0);let u=c.__webglTexture,d=I(i),f=o?e.TEXTURE_CUBE_MAP_POSITIVE_X+a:e.TEXTURE_2D,p=i.depthTexture.format===1027?e.DEPTH_STENCIL_ATTACHMENT:e.DEPTH_ATTACHMENT;if(i.depthTexture.format===1026)De(i)?s.framebufferTexture2DMultisampleEXT(e.FRAMEBUFFER,p,f,u,0,d):e.framebufferTexture2D(e.FRAMEBUFFER,p,f,u,0);else if(i.depthTexture.format===1027)De(i)?s.framebufferTexture2DMultisampleEXT(e.FRAMEBUFFER,p,f,u,0,d):e.framebufferTexture2D(e.FRAMEBUFFER,p,f,u,0);else throw Error(`THREE.WebGLTextures: Unknown depthTexture format.`)}function Se(t){let i=r.get(t),a=t.isWebGLCubeRenderTarget===!0;if(i.__boundDepthTexture!==t.depthTexture){let e=t.depthTexture;if(i.__depthDisposeCallback&&i.__depthDisposeCallback(),e){let t=()=>{delete i.__boundDepthTexture,delete i.__depthDisposeCallback,e.removeEventListener(`dispose`,t)};e.addEventListener(`dispose`,t),i.__depthDisposeCallback=t}i.__boundDepthTexture=e}if(t.depthTexture&&!i.__autoAllocateDepthBuffer){if(a)for(let e=0;e<6;e++)xe(i.__webglFramebuffer[e],t,e);else t.texture.mipmaps.length>0?xe(i.__webglFramebuffer[0],t,0):xe(i.__webglFramebuffer,t,0)}else if(a){i.__webglDepthbuffer=[];for(let r=0;r<6;r++)if(n.bindFramebuffer(e.FRAMEBUFFER,i.__webglFramebuffer[r]),i.__webglDepthbuffer[r]===void 0)i.__webglDepthbuffer[r]=e.createRenderbuffer(),be(i.__webglDepthbuffer[r],t,!1);else{let n=t.stencilBuffer?e.DEPTH_STENCIL_ATTACHMENT:e.DEPTH_ATTACHMENT,a=i.__webglDepthbuffer[r];e.bindRenderbuffer(e.RENDERBUFFER,a),e.framebufferRenderbuffer(e.FRAMEBUFFER,n,e.RENDERBUFFER,a)}}else if(t.texture.mipmaps.length>0?n.bindFramebuffer(e.FRAMEBUFFER,i.__webglFramebuffer[0]):n.bindFramebuffer(e.FRAMEBUFFER,i.__webglFramebuffer),i.__webglDepthbuffer===void 0)i.__webglDepthbuffer=e.createRenderbuffer(),be(i.__webglDepthbuffer,t,!1);else{let n=t.stencilBuffer?e.DEPTH_STENCIL_ATTACHMENT:e.DEPTH_ATTACHMENT,r=i.__webglDepthbuffer;e.bindRenderbuffer(e.RENDERBUFFER,r),e.framebufferRenderbuffer(e.FRAMEBUFFER,n,e.RENDERBUFFER,r)}n.bindFramebuffer(e.FRAMEBUFFER,null)}function Ce(t,n,i){let a=r.get(t);n!==void 0&&ye(a.__webglFramebuffer,t,t.texture,e.COLOR_ATTACHMENT0,e.TEXTURE_2D,0),i!==void 0&&Se(t)}function F(t){let i=t.texture,s=r.get(t),c=r.get(i);t.addEventListener(`dispose`,O),T(t);let l=t.textures,u=t.isWebGLCubeRenderTarget===!0,d=l.length>1;if(d||(c.__webglTexture===void 0&&(c.__webglTexture=e.createTexture()),c.__version=i.version,o.memory.textures++),u){s.__webglFramebuffer=[];for(let t=0;t<6;t++)if(i.mipmaps.length>0){s.__webglFramebuffer[t]=[];for(let n=0;n<i.mipmaps.length;n++)s.__webglFramebuffer[t][n]=e.createFramebuffer()}else s.__webglFramebuffer[t]=e.createFramebuffer()}else{if(i.mipmaps.length>0){s.__webglFramebuffer=[];for(let t=0;t<i.mipmaps.length;t++)s.__webglFramebuffer[t]=e.createFramebuffer()}else s.__webglFramebuffer=e.createFramebuffer();if(d)for(let t=0,n=l.length;t<n;t++){let n=r.get(l[t]);n.__webglTexture===void 0&&(n.__webglTexture=e.createTexture(),o.memory.textures++)}if(t.samples>0&&De(t)===!1){s.__webglMultisampledFramebuffer=e.createFramebuffer(),s.__webglColorRenderbuffer=[],n.bindFramebuffer(e.FRAMEBUFFER,s.__webglMultisampledFramebuffer);for(let n=0;n<l.length;n++){let r=l[n];s.__webglColorRenderbuffer[n]=e.createRenderbuffer(),e.bindRenderbuffer(e.RENDERBUFFER,s.__webglColorRenderbuffer[n]);let i=a.convert(r.format,r.colorSpace),o=a.convert(r.type),c=S(r.internalFormat,i,o,r.normalized,r.colorSpace,t.isXRRenderTarget===!0),u=I(t);e.renderbufferStorageMultisample(e.RENDERBUFFER,u,c,t.width,t.height),e.framebufferRenderbuffer(e.FRAMEBUFFER,e.COLOR_ATTACHMENT0+n,e.RENDERBUFFER,s.__webglColorRenderbuffer[n])}e.bindRenderbuffer(e.RENDERBUFFER,null),t.depthBuffer&&(s.__webglDepthRenderbuffer=e.createRenderbuffer(),be(s.__webglDepthRenderbuffer,t,!0)),n.bindFramebuffer(e.FRAMEBUFFER,null)}}if(u){n.bindTexture(e.TEXTURE_CUBE_MAP,c.__webglTexture),me(e.TEXTURE_CUBE_MAP,i);for(let n=0;n<6;n++)if(i.mipmaps.length>0)for(let r=0;r<i.mipmaps.length;r++)ye(s.__webglFramebuffer[n][r],t,i,e.COLOR_ATTACHMENT0,e.TEXTURE_CUBE_MAP_POSITIVE_X+n,r);else ye(s.__webglFramebuffer[n],t,i,e.COLOR_ATTACHMENT0,e.TEXTURE_CUBE_MAP_POSITIVE_X+n,0);y(i)?b(e.TEXTURE_CUBE_MAP):i.mipmaps.length>0&&e.texParameteri(e.TEXTURE_CUBE_MAP,e.TEXTURE_MAX_LEVEL,i.mipmaps.length-1),n.unbindTexture()}else if(d){for(let i=0,a=l.length;i<a;i++){let a=l[i],o=r.get(a),c=e.TEXTURE_2D;(t.isWebGL3DRenderTarget||t.isWebGLArrayRenderTarget)&&(c=t.isWebGL3DRenderTarget?e.TEXTURE_3D:e.TEXTURE_2D_ARRAY),n.bindTexture(c,o.__webglTexture),me(c,a),ye(s.__webglFramebuffer,t,a,e.COLOR_ATTACHMENT0+i,c,0),y(a)&&b(c)}n.unbindTexture()}else{let r=e.TEXTURE_2D;if((t.isWebGL3DRenderTarget||t.isWebGLArrayRenderTarget)&&(r=t.isWebGL3DRenderTarget?e.TEXTURE_3D:e.TEXTURE_2D_ARRAY),n.bindTexture(r,c.__webglTexture),me(r,i),i.mipmaps.length>0)for(let n=0;n<i.mipmaps.length;n++)ye(s.__webglFramebuffer[n],t,i,e.COLOR_ATTACHMENT0,r,n);else ye(s.__webglFramebuffer,t,i,e.COLOR_ATTACHMENT0,r,0);y(i)?b(r):i.mipmaps.length>0&&e.texParameteri(r,e.TEXTURE_MAX_LEVEL,i.mipmaps.length-1),n.unbindTexture()}t.depthBuffer&&Se(t)}function we(e){let t=e.textures;for(let i=0,a=t.length;i<a;i++){let a=t[i];if(y(a)&&a.mipmapsAutoUpdate===!0){let t=x(e),i=r.get(a).__webglTexture;n.bindTexture(t,i),b(t),n.unbindTexture()}}}let Te=[];function Ee(t){if(t.samples>0){if(De(t)===!1){let i=t.textures,a=t.width,o=t.height,s=e.COLOR_BUFFER_BIT,l=t.stencilBuffer?e.DEPTH_STENCIL_ATTACHMENT:e.DEPTH_ATTACHMENT,u=r.get(t),d=i.length>1;if(d)for(let t=0;t<i.length;t++)n.bindFramebuffer(e.FRAMEBUFFER,u.__webglMultisampledFramebuffer),e.framebufferRenderbuffer(e.FRAMEBUFFER,e.COLOR_ATTACHMENT0+t,e.RENDERBUFFER,null),n.bindFramebuffer(e.FRAMEBUFFER,u.__webglFramebuffer),e.framebufferTexture2D(e.DRAW_FRAMEBUFFER,e.COLOR_ATTACHMENT0+t,e.TEXTURE_2D,null,0);n.bindFramebuffer(e.READ_FRAMEBUFFER,u.__webglMultisampledFramebuffer),t.texture.mipmaps.length>0?n.bindFramebuffer(e.DRAW_FRAMEBUFFER,u.__webglFramebuffer[0]):n.bindFramebuffer(e.DRAW_FRAMEBUFFER,u.__webglFramebuffer);for(let n=0;n<i.length;n++){if(t.resolveDepthBuffer&&(t.depthBuffer&&(s|=e.DEPTH_BUFFER_BIT),t.stencilBuffer&&t.resolveStencilBuffer&&(s|=e.STENCIL_BUFFER_BIT)),d){e.framebufferRenderbuffer(e.READ_FRAMEBUFFER,e.COLOR_ATTACHMENT0,e.RENDERBUFFER,u.__webglColorRenderbuffer[n]);let t=r.get(i[n]).__webglTexture;e.framebufferTexture2D(e.DRAW_FRAMEBUFFER,e.COLOR_ATTACHMENT0,e.TEXTURE_2D,t,0)}e.blitFramebuffer(0,0,a,o,0,0,a,o,s,e.NEAREST),c===!0&&(Te.length=0,Te.push(e.COLOR_ATTACHMENT0+n),t.depthBuffer&&t.storeMultisampledDepthBuffer===!1&&Te.push(l),e.invalidateFramebuffer(e.READ_FRAMEBUFFER,Te))}if(n.bindFramebuffer(e.READ_FRAMEBUFFER,null),n.bindFramebuffer(e.DRAW_FRAMEBUFFER,null),d)for(let t=0;t<i.length;t++){n.bindFramebuffer(e.FRAMEBUFFER,u.__webglMultisampledFramebuffer),e.framebufferRenderbuffer(e.FRAMEBUFFER,e.COLOR_ATTACHMENT0+t,e.RENDERBUFFER,u.__webglColorRenderbuffer[t]);let a=r.get(i[t]).__webglTexture;n.bindFramebuffer(e.FRAMEBUFFER,u.__webglFramebuffer),e.framebufferTexture2D(e.DRAW_FRAMEBUFFER,e.COLOR_ATTACHMENT0+t,e.TEXTURE_2D,a,0)}n.bindFramebuffer(e.DRAW_FRAMEBUFFER,u.__webglMultisampledFramebuffer)}else if(t.depthBuffer&&t.storeMultisampledDepthBuffer===!1&&c){let n=t.stencilBuffer?e.DEPTH_STENCIL_ATTACHMENT:e.DEPTH_ATTACHMENT;e.invalidateFramebuffer(e.DRAW_FRAMEBUFFER,[n])}}}function I(e){return Math.min(i.maxSamples,e.samples)}function De(e){let n=r.get(e);return e.samples>0&&t.has(`WEBGL_multisampled_render_to_texture`)===!0&&n.__useRenderToTexture!==!1}function L(e){let t=o.render.frame;u.get(e)!==t&&(u.set(e,t),e.update())}function R(e,t){let n=e.colorSpace,r=e.format,i=e.type;return e.isCompressedTexture===!0||e.isVideoTexture===!0||n!==`srgb-linear`&&n!==``&&(to.getTransfer(n)===`srgb`?(r!==1023||i!==1009)&&K(`WebGLTextures: sRGB encoded textures have to use RGBAFormat and UnsignedByteType.`):q(`WebGLTextures: Unsupported texture color space:`,n)),t}function Oe(e){return typeof HTMLImageElement<`u`&&e instanceof HTMLImageElement?(l.width=e.naturalWidth||e.width,l.height=e.naturalHeight||e.height):typeof VideoFrame<`u`&&e instanceof VideoFrame?(l.width=e.displayWidth,l.height=e.displayHeight):(l.width=e.width,l.height=e.height),l}this.allocateTextureUnit=ae,this.resetTextureUnits=ne,this.getTextureUnits=re,this.setTextureUnits=ie,this.setTexture2D=se,this.setTexture2DArray=ce,this.setTexture3D=le,this.setTextureCube=ue,this.rebindTextures=Ce,this.setupRenderTarget=F,this.updateRenderTargetMipmap=we,this.updateMultisampleRenderTarget=Ee,this.setupDepthRenderbuffer=Se,this.setupFrameBufferTexture=ye,this.useMultisampledRTT=De,this.dispose=j}function gp(e,t){function n(n,r=``){let i,a=to.getTransfer(r);if(n===1009)return e.UNSIGNED_BYTE;if(n===1017)return e.UNSIGNED_SHORT_4_4_4_4;if(n===1018)return e.UNSIGNED_SHORT_5_5_5_1;if(n===35902)return e.UNSIGNED_INT_5_9_9_9_REV;if(n===35899)return e.UNSIGNED_INT_10F_11F_11F_REV;if(n===1010)return e.BYTE;if(n===1011)return e.SHORT;if(n===1012)return e.UNSIGNED_SHORT;if(n===1013)return e.INT;if(n===1014)return e.UNSIGNED_INT;if(n===1015)return e.FLOAT;if(n===1016)return e.HALF_FLOAT;if(n===1021)return e.ALPHA;if(n===1022)return e.RGB;if(n===1023)return e.RGBA;if(n===1026)return e.DEPTH_COMPONENT;if(n===1027)return e.DEPTH_STENCIL;if(n===1028)return e.RED;if(n===1029)return e.RED_INTEGER;if(n===1030)return e.RG;if(n===1031)return e.RG_INTEGER;if(n===1033)return e.RGBA_INTEGER;if(n===33776||n===33777||n===33778||n===33779){if(a===`srgb`){if(i=t.get(`WEBGL_compressed_texture_s3tc_srgb`),i!==null){if(n===33776)return i.COMPRESSED_SRGB_S3TC_DXT1_EXT;if(n===33777)return i.COMPRESSED_SRGB_ALPHA_S3TC_DXT1_EXT;if(n===33778)return i.COMPRESSED_SRGB_ALPHA_S3TC_DXT3_EXT;if(n===33779)return i.COMPRESSED_SRGB_ALPHA_S3TC_DXT5_EXT}else return null}else if(i=t.get(`WEBGL_compressed_texture_s3tc`),i!==null){if(n===33776)return i.COMPRESSED_RGB_S3TC_DXT1_EXT;if(n===33777)return i.COMPRESSED_RGBA_S3TC_DXT1_EXT;if(n===33778)return i.COMPRESSED_RGBA_S3TC_DXT3_EXT;if(n===33779)return i.COMPRESSED_RGBA_S3TC_DXT5_EXT}else return null}if(n===35840||n===35841||n===35842||n===35843){if(i=t.get(`WEBGL_compressed_texture_pvrtc`),i!==null){if(n===35840)return i.COMPRESSED_RGB_PVRTC_4BPPV1_IMG;if(n===35841)return i.COMPRESSED_RGB_PVRTC_2BPPV1_IMG;if(n===35842)return i.COMPRESSED_RGBA_PVRTC_4BPPV1_IMG;if(n===35843)return i.COMPRESSED_RGBA_PVRTC_2BPPV1_IMG}else return null}if(n===36196||n===37492||n===37496||n===37488||n===37489||n===37490||n===37491){if(i=t.get(`WEBGL_compressed_texture_etc`),i!==null){if(n===36196||n===37492)return a===`srgb`?i.COMPRESSED_SRGB8_ETC2:i.COMPRESSED_RGB8_ETC2;if(n===37496)return a===`srgb`?i.COMPRESSED_SRGB8_ALPHA8_ETC2_EAC:i.COMPRESSED_RGBA8_ETC2_EAC;if(n===37488)return i.COMPRESSED_R11_EAC;if(n===37489)return i.COMPRESSED_SIGNED_R11_EAC;if(n===37490)return i.COMPRESSED_RG11_EAC;if(n===37491)return i.COMPRESSED_SIGNED_RG11_EAC}else return null}if(n===37808||n===37809||n===37810||n===37811||n===37812||n===37813||n===37814||n===37815||n===37816||n===37817||n===37818||n===37819||n===37820||n===37821){if(i=t.get(`WEBGL_compressed_texture_astc`),i!==null){if(n===37808)return a===`srgb`?i.COMPRESSED_SRGB8_ALPHA8_ASTC_4x4_KHR:i.COMPRESSED_RGBA_ASTC_4x4_KHR;if(n===37809)return a===`srgb`?i.COMPRESSED_SRGB8_ALPHA8_ASTC_5x4_KHR:i.COMPRESSED_RGBA_ASTC_5x4_KHR;if(n===37810)return a===`srgb`?i.COMPRESSED_SRGB8_ALPHA8_ASTC_5x5_KHR:i.COMPRESSED_RGBA_ASTC_5x5_KHR;if(n===37811)return a===`srgb`?i.COMPRESSED_SRGB8_ALPHA8_ASTC_6x5_KHR:i.COMPRESSED_RGBA_ASTC_6x5_KHR;if(n===37812)return a===`srgb`?i.COMPRESSED_SRGB8_ALPHA8_ASTC_6x6_KHR:i.COMPRESSED_RGBA_ASTC_6x6_KHR;if(n===37813)return a===`srgb`?i.COMPRESSED_SRGB8_ALPHA8_ASTC_8x5_KHR:i.COMPRESSED_RGBA_ASTC_8x5_KHR;if(n===37814)return a===`srgb`?i.COMPRESSED_SRGB8_ALPHA8_ASTC_8x6_KHR:i.COMPRESSED_RGBA_ASTC_8x6_KHR;if(n===37815)return a===`srgb`?i.COMPRESSED_SRGB8_ALPHA8_ASTC_8x8_KHR:i.COMPRESSED_RGBA_ASTC_8x8_KHR;if(n===37816)return a===`srgb`?i.COMPRESSED_SRGB8_ALPHA8_ASTC_10x5_KHR:i.COMPRESSED_RGBA_ASTC_10x5_KHR;if(n===37817)return a===`srgb`?i.COMPRESSED_SRGB8_ALPHA8_ASTC_10x6_KHR:i.COMPRESSED_RGBA_ASTC_10x6_KHR;if(n===37818)return a===`srgb`?i.COMPRESSED_SRGB8_ALPHA8_ASTC_10x8_KHR:i.COMPRESSED_RGBA_ASTC_10x8_KHR;if(n===37819)return a===`srgb`?i.COMPRESSED_SRGB8_ALPHA8_ASTC_10x10_KHR:i.COMPRESSED_RGBA_ASTC_10x10_KHR;if(n===37820)return a===`srgb`?i.COMPRESSED_SRGB8_ALPHA8_ASTC_12x10_KHR:i.COMPRESSED_RGBA_ASTC_12x10_KHR;if(n===37821)return a===`srgb`?i.COMPRESSED_SRGB8_ALPHA8_ASTC_12x12_KHR:i.COMPRESSED_RGBA_ASTC_12x12_KHR}else return null}if(n===36492||n===36494||n===36495){if(i=t.get(`EXT_texture_compression_bptc`),i!==null){if(n===36492)return a===`srgb`?i.COMPRESSED_SRGB_ALPHA_BPTC_UNORM_EXT:i.COMPRESSED_RGBA_BPTC_UNORM_EXT;if(n===36494)return i.COMPRESSED_RGB_BPTC_SIGNED_FLOAT_EXT;if(n===36495)return i.COMPRESSED_RGB_BPTC_UNSIGNED_FLOAT_EXT}else return null}if(n===36283||n===36284||n===36285||n===36286){if(i=t.get(`EXT_texture_compression_rgtc`),i!==null){if(n===36283)return i.COMPRESSED_RED_RGTC1_EXT;if(n===36284)return i.COMPRESSED_SIGNED_RED_RGTC1_EXT;if(n===36285)return i.COMPRESSED_RED_GREEN_RGTC2_EXT;if(n===36286)return i.COMPRESSED_SIGNED_RED_GREEN_RGTC2_EXT}else return null}return n===1020?e.UNSIGNED_INT_24_8:e[n]===void 0?null:e[n]}return{convert:n}}var _p=`
void main() {

	gl_Position = vec4( position, 1.0 );

}`,vp=`
uniform sampler2DArray depthColor;
uniform float depthWidth;
uniform float depthHeight;

void main() {

	vec2 coord = vec2( gl_FragCoord.x / depthWidth, gl_FragCoord.y / depthHeight );

	if ( coord.x >= 1.0 ) {

		gl_FragDepth = texture( depthColor, vec3( coord.x - 1.0, coord.y, 1 ) ).r;

	} else {

		gl_FragDepth = texture( depthColor, vec3( coord.x, coord.y, 0 ) ).r;

	}

}`,yp=class{constructor(){this.texture=null,this.mesh=null,this.depthNear=0,this.depthFar=0}init(e,t){if(this.texture===null){let n=new Uc(e.texture);(e.depthNear!==t.depthNear||e.depthFar!==t.depthFar)&&(this.depthNear=e.depthNear,this.depthFar=e.depthFar),this.texture=n}}getMesh(e){if(this.texture!==null&&this.mesh===null){let t=e.cameras[0].viewport,n=new el({vertexShader:_p,fragmentShader:vp,uniforms:{depthColor:{value:this.texture},depthWidth:{value:t.z},depthHeight:{value:t.w}}});this.mesh=new yc(new Gc(20,20),n)}return this.mesh}reset(){this.texture=null,this.mesh=null}getDepthTexture(){return this.texture}},bp=class extends ba{constructor(e,t){super();let n=this,r=null,i=1,a=null,o=`local-floor`,s=1,c=null,l=null,u=null,d=null,f=null,p=null,m=typeof XRWebGLBinding<`u`,h=new yp,g={},_=t.getContextAttributes(),v=null,y=null,b=[],x=[],S=new Y,C=null,w=null,T=new Ll;T.viewport=new po;let E=new Ll;E.viewport=new po;let D=[T,E],O=new Gl,k=null,A=null;this.cameraAutoUpdate=!0,this.enabled=!1,this.isPresenting=!1,this.getController=function(e){let t=b[e];return t===void 0&&(t=new Jo,b[e]=t),t.getTargetRaySpace()},this.getControllerGrip=function(e){let t=b[e];return t===void 0&&(t=new Jo,b[e]=t),t.getGripSpace()},this.getHand=function(e){let t=b[e];return t===void 0&&(t=new Jo,b[e]=t),t.getHandSpace()};function j(e){let t=x.indexOf(e.inputSource);if(t===-1)return;let n=b[t];n!==void 0&&(n.update(e.inputSource,e.frame,c||a),n.dispatchEvent({type:e.type,data:e.inputSource}))}function ee(){r.removeEventListener(`select`,j),r.removeEventListener(`selectstart`,j),r.removeEventListener(`selectend`,j),r.removeEventListener(`squeeze`,j),r.removeEventListener(`squeezestart`,j),r.removeEventListener(`squeezeend`,j),r.removeEventListener(`end`,ee),r.removeEventListener(`inputsourceschange`,M);for(let e=0;e<b.length;e++){let t=x[e];t!==null&&(x[e]=null,b[e].disconnect(t))}k=null,A=null,h.reset();for(let e in g)delete g[e];if(e.setRenderTarget(v),f=null,d=null,u=null,r=null,y=null,ie.stop(),n.isPresenting=!1,e.setPixelRatio(C),e.setSize(S.width,S.height,!1),w!==null){let e=w.camera;e.fov=w.fov,e.zoom=w.zoom,e.updateProjectionMatrix(),w=null}n.dispatchEvent({type:`sessionend`})}this.setFramebufferScaleFactor=function(e){i=e,n.isPresenting===!0&&K(`WebXRManager: Cannot change framebuffer scale while presenting.`)},this.setReferenceSpaceType=function(e){o=e,n.isPresenting===!0&&K(`WebXRManager: Cannot change reference space type while presenting.`)},this.getReferenceSpace=function(){return c||a},this.setReferenceSpace=function(e){c=e},this.getBaseLayer=function(){return d===null?f:d},this.getBinding=function(){return u===null&&m&&(u=new XRWebGLBinding(r,t)),u},this.getFrame=function(){return p},this.getSession=function(){return r},this.setSession=async function(l){if(r=l,r!==null){if(v=e.getRenderTarget(),r.addEventListener(`select`,j),r.addEventListener(`selectstart`,j),r.addEventListener(`selectend`,j),r.addEventListener(`squeeze`,j),r.addEventListener(`squeezestart`,j),r.addEventListener(`squeezeend`,j),r.addEventListener(`end`,ee),r.addEventListener(`inputsourceschange`,M),_.xrCompatible!==!0&&await t.makeXRCompatible(),C=e.getPixelRatio(),e.getSize(S),m&&`createProjectionLayer`in XRWebGLBinding.prototype){let n=null,a=null,o=null;_.depth&&(o=_.stencil?t.DEPTH24_STENCIL8:t.DEPTH_COMPONENT24,n=_.stencil?si:oi,a=_.stencil?ei:Yr);let s={colorFormat:t.RGBA8,depthFormat:o,scaleFactor:i};u=this.getBinding(),d=u.createProjectionLayer(s),r.updateRenderState({layers:[d]}),e.setPixelRatio(1),e.setSize(d.textureWidth,d.textureHeight,!1),y=new ho(d.textureWidth,d.textureHeight,{format:ai,type:Wr,depthTexture:new Vc(d.textureWidth,d.textureHeight,a,void 0,void 0,void 0,void 0,void 0,void 0,n),stencilBuffer:_.stencil,colorSpace:e.outputColorSpace,samples:_.antialias?4:0,resolveDepthBuffer:d.ignoreDepthValues===!1,resolveStencilBuffer:d.ignoreDepthValues===!1,storeMultisampledDepthBuffer:d.ignoreDepthValues===!1,storeMultisampledStencilBuffer:d.ignoreDepthValues===!1})}else{let n={antialias:_.antialias,alpha:!0,depth:_.depth,stencil:_.stencil,framebufferScaleFactor:i};f=new XRWebGLLayer(r,t,n),r.updateRenderState({baseLayer:f}),e.setPixelRatio(1),e.setSize(f.framebufferWidth,f.framebufferHeight,!1),y=new ho(f.framebufferWidth,f.framebufferHeight,{format:ai,type:Wr,colorSpace:e.outputColorSpace,stencilBuffer:_.stencil,resolveDepthBuffer:f.ignoreDepthValues===!1,resolveStencilBuffer:f.ignoreDepthValues===!1,storeMultisampledDepthBuffer:f.ignoreDepthValues===!1,storeMultisampledStencilBuffer:f.ignoreDepthValues===!1})}y.isXRRenderTarget=!0,this.setFoveation(s),c=null,a=await r.requestReferenceSpace(o),ie.setContext(r),ie.start(),n.isPresenting=!0,n.dispatchEvent({type:`sessionstart`})}},this.getEnvironmentBlendMode=function(){if(r!==null)return r.environmentBlendMode},this.getDepthTexture=function(){return h.getDepthTexture()};function M(e){for(let t=0;t<e.removed.length;t++){let n=e.removed[t],r=x.indexOf(n);r>=0&&(x[r]=null,b[r].disconnect(n))}for(let t=0;t<e.added.length;t++){let n=e.added[t],r=x.indexOf(n);if(r===-1){for(let e=0;e<b.length;e++)if(e>=x.length){x.push(n),r=e;break}else if(x[e]===null){x[e]=n,r=e;break}if(r===-1)break}let i=b[r];i&&i.connect(n)}}function N(e,t){t===null?e.matrixWorld.copy(e.matrix):e.matrixWorld.multiplyMatrices(t.matrixWorld,e.matrix),e.matrixWorldInverse.copy(e.matrixWorld).invert()}this.updateCamera=function(e){if(r===null)return;let t=e.near,n=e.far;h.texture!==null&&(h.depthNear>0&&(t=h.depthNear),h.depthFar>0&&(n=h.depthFar)),O.near=E.near=T.near=t,O.far=E.far=T.far=n,(k!==O.near||A!==O.far)&&(r.updateRenderState({depthNear:O.near,depthFar:O.far}),k=O.near,A=O.far),O.layers.mask=e.layers.mask|6,T.layers.mask=O.layers.mask&-5,E.layers.mask=O.layers.mask&-3;let i=e.parent,a=O.cameras;N(O,i);for(let e=0;e<a.length;e++)N(a[e],i);O.projectionMatrix.copy(T.projectionMatrix),O.projectionMatrixInverse.copy(T.projectionMatrixInverse),w===null&&e.isPerspectiveCamera&&(w={camera:e,fov:e.fov,zoom:e.zoom}),te(e,O,i)};function te(e,t,n){n===null?e.matrix.copy(t.matrixWorld):(e.matrix.copy(n.matrixWorld),e.matrix.invert(),e.matrix.multiply(t.matrixWorld)),e.matrix.decompose(e.position,e.quaternion,e.scale),e.updateMatrixWorld(!0),e.projectionMatrix.copy(t.projectionMatrix),e.projectionMatrixInverse.copy(t.projectionMatrixInverse),e.isPerspectiveCamera&&(e.fov=wa*2*Math.atan(1/e.projectionMatrix.elements[5]),e.zoom=1)}this.getCamera=function(){return O},this.getFoveation=function(){if(d!==null||f!==null)return s},this.setFoveation=function(e){s=e,d!==null&&(d.fixedFoveation=e),f!==null&&f.fixedFoveation!==void 0&&(f.fixedFoveation=e)},this.hasDepthSensing=function(){return h.texture!==null},this.getDepthSensingMesh=function(){return h.getMesh(O)},this.getCameraTexture=function(e){return g[e]};let ne=null;function re(t,i){if(l=i.getViewerPose(c||a),p=i,l!==null){let t=l.views;f!==null&&(e.setRenderTargetFramebuffer(y,f.framebuffer),e.setRenderTarget(y));let i=!1;t.length!==O.cameras.length&&(O.cameras.length=0,i=!0);for(let n=0;n<t.length;n++){let r=t[n],a=null;if(f!==null)a=f.getViewport(r);else{let t=u.getViewSubImage(d,r);a=t.viewport,n===0&&(e.setRenderTargetTextures(y,t.colorTexture,t.depthStencilTexture),e.setRenderTarget(y))}let o=D[n];o===void 0&&(o=new Ll,o.layers.enable(n),o.viewport=new po,D[n]=o),o.matrix.fromArray(r.transform.matrix),o.matrix.decompose(o.position,o.quaternion,o.scale),o.projectionMatrix.fromArray(r.projectionMatrix),o.projectionMatrixInverse.copy(o.projectionMatrix).invert(),o.viewport.set(a.x,a.y,a.width,a.height),n===0&&(O.matrix.copy(o.matrix),O.matrix.decompose(O.position,O.quaternion,O.scale)),i===!0&&O.cameras.push(o)}let a=r.enabledFeatures;if(a&&a.includes(`depth-sensing`)&&r.depthUsage==`gpu-optimized`&&m){u=n.getBinding();let e=u.getDepthInformation(t[0]);e&&e.isValid&&e.texture&&h.init(e,r.renderState)}if(a&&a.includes(`camera-access`)&&m){e.state.unbindTexture(),u=n.getBinding();for(let e=0;e<t.length;e++){let n=t[e].camera;if(n){let e=g[n];e||(e=new Uc,g[n]=e);let t=u.getCameraImage(n);e.sourceTexture=t}}}}for(let e=0;e<b.length;e++){let t=x[e],n=b[e];t!==null&&n!==void 0&&n.update(t,i,c||a)}ne&&ne(t,i),i.detectedPlanes&&n.dispatchEvent({type:`planesdetected`,data:i}),p=null}let ie=new vu;ie.setAnimationLoop(re),this.setAnimationLoop=function(e){ne=e},this.dispose=function(){}}},xp=new vo,Sp=new Z;Sp.set(-1,0,0,0,1,0,0,0,1);function Cp(e,t){function n(e,t){e.matrixAutoUpdate===!0&&e.updateMatrix(),t.value.copy(e.matrix)}function r(t,n){n.color.getRGB(t.fogColor.value,Xc(e)),n.isFog?(t.fogNear.value=n.near,t.fogFar.value=n.far):n.isFogExp2&&(t.fogDensity.value=n.density)}function i(e,t,n,r,i){t.isNodeMaterial?t.uniformsNeedUpdate=!1:t.isMeshBasicMaterial?a(e,t):t.isMeshLambertMaterial?(a(e,t),t.envMap&&(e.envMapIntensity.value=t.envMapIntensity)):t.isMeshToonMaterial?(a(e,t),d(e,t)):t.isMeshPhongMaterial?(a(e,t),u(e,t),t.envMap&&(e.envMapIntensity.value=t.envMapIntensity)):t.isMeshStandardMaterial?(a(e,t),f(e,t),t.isMeshPhysicalMaterial&&p(e,t,i)):t.isMeshMatcapMaterial?(a(e,t),m(e,t)):t.isMeshDepthMaterial?a(e,t):t.isMeshDistanceMaterial?(a(e,t),h(e,t)):t.isMeshNormalMaterial?a(e,t):t.isLineBasicMaterial?(o(e,t),t.isLineDashedMaterial&&s(e,t)):t.isPointsMaterial?c(e,t,n,r):t.isSpriteMaterial?l(e,t):t.isShadowMaterial?(e.color.value.copy(t.color),e.opacity.value=t.opacity):t.isShaderMaterial&&(t.uniformsNeedUpdate=!1)}function a(e,r){e.opacity.value=r.opacity,r.color&&e.diffuse.value.copy(r.color),r.emissive&&e.emissive.value.copy(r.emissive).multiplyScalar(r.emissiveIntensity),r.map&&(e.map.value=r.map,n(r.map,e.mapTransform)),r.alphaMap&&(e.alphaMap.value=r.alphaMap,n(r.alphaMap,e.alphaMapTransform)),r.bumpMap&&(e.bumpMap.value=r.bumpMap,n(r.bumpMap,e.bumpMapTransform),e.bumpScale.value=r.bumpScale,r.side===1&&(e.bumpScale.value*=-1)),r.normalMap&&(e.normalMap.value=r.normalMap,n(r.normalMap,e.normalMapTransform),e.normalScale.value.copy(r.normalScale),r.side===1&&e.normalScale.value.negate()),r.displacementMap&&(e.displacementMap.value=r.displacementMap,n(r.displacementMap,e.displacementMapTransform),e.displacementScale.value=r.displacementScale,e.displacementBias.value=r.displacementBias),r.emissiveMap&&(e.emissiveMap.value=r.emissiveMap,n(r.emissiveMap,e.emissiveMapTransform)),r.specularMap&&(e.specularMap.value=r.specularMap,n(r.specularMap,e.specularMapTransform)),r.alphaTest>0&&(e.alphaTest.value=r.alphaTest);let i=t.get(r),a=i.envMap,o=i.envMapRotation;a&&(e.envMap.value=a,e.envMapRotation.value.setFromMatrix4(xp.makeRotationFromEuler(o)).transpose(),a.isCubeTexture&&a.isRenderTargetTexture===!1&&e.envMapRotation.value.premultiply(Sp),e.reflectivity.value=r.reflectivity,e.ior.value=r.ior,e.refractionRatio.value=r.refractionRatio),r.lightMap&&(e.lightMap.value=r.lightMap,e.lightMapIntensity.value=r.lightMapIntensity,n(r.lightMap,e.lightMapTransform)),r.aoMap&&(e.aoMap.value=r.aoMap,e.aoMapIntensity.value=r.aoMapIntensity,n(r.aoMap,e.aoMapTransform))}function o(e,t){e.diffuse.value.copy(t.color),e.opacity.value=t.opacity,t.map&&(e.map.value=t.map,n(t.map,e.mapTransform))}function s(e,t){e.dashSize.value=t.dashSize,e.totalSize.value=t.dashSize+t.gapSize,e.scale.value=t.scale}function c(e,t,r,i){e.diffuse.value.copy(t.color),e.opacity.value=t.opacity,e.size.value=t.size*r,e.scale.value=i*.5,t.map&&(e.map.value=t.map,n(t.map,e.uvTransform)),t.alphaMap&&(e.alphaMap.value=t.alphaMap,n(t.alphaMap,e.alphaMapTransform)),t.alphaTest>0&&(e.alphaTest.value=t.alphaTest)}function l(e,t){e.diffuse.value.copy(t.color),e.opacity.value=t.opacity,e.rotation.value=t.rotation,t.map&&(e.map.value=t.map,n(t.map,e.mapTransform)),t.alphaMap&&(e.alphaMap.value=t.alphaMap,n(t.alphaMap,e.alphaMapTransform)),t.alphaTest>0&&(e.alphaTest.value=t.alphaTest)}function u(e,t){e.specular.value.copy(t.specular),e.shininess.value=Math.max(t.shininess,1e-4)}function d(e,t){t.gradientMap&&(e.gradientMap.value=t.gradientMap)}function f(e,t){e.metalness.value=t.metalness,t.metalnessMap&&(e.metalnessMap.value=t.metalnessMap,n(t.metalnessMap,e.metalnessMapTransform)),e.roughness.value=t.roughness,t.roughnessMap&&(e.roughnessMap.value=t.roughnessMap,n(t.roughnessMap,e.roughnessMapTransform)),t.envMap&&(e.envMapIntensity.value=t.envMapIntensity)}function p(e,t,r){e.ior.value=t.ior,t.diffuseRoughness>0&&(e.diffuseRoughness.value=t.diffuseRoughness,t.diffuseRoughnessMap&&(e.diffuseRoughnessMap.value=t.diffuseRoughnessMap,n(t.diffuseRoughnessMap,e.diffuseRoughnessMapTransform))),t.sheen>0&&(e.sheenColor.value.copy(t.sheenColor).multiplyScalar(t.sheen),e.sheenRoughness.value=t.sheenRoughness,t.sheenColorMap&&(e.sheenColorMap.value=t.sheenColorMap,n(t.sheenColorMap,e.sheenColorMapTransform)),t.sheenRoughnessMap&&(e.sheenRoughnessMap.value=t.sheenRoughnessMap,n(t.sheenRoughnessMap,e.sheenRoughnessMapTransform))),t.clearcoat>0&&(e.clearcoat.value=t.clearcoat,e.clearcoatRoughness.value=t.clearcoatRoughness,t.clearcoatMap&&(e.clearcoatMap.value=t.clearcoatMap,n(t.clearcoatMap,e.clearcoatMapTransform)),t.clearcoatRoughnessMap&&(e.clearcoatRoughnessMap.value=t.clearcoatRoughnessMap,n(t.clearcoatRoughnessMap,e.clearcoatRoughnessMapTransform)),t.clearcoatNormalMap&&(e.clearcoatNormalMap.value=t.clearcoatNormalMap,n(t.clearcoatNormalMap,e.clearcoatNormalMapTransform),e.clearcoatNormalScale.value.copy(t.clearcoatNormalScale),t.side===1&&e.clearcoatNormalScale.value.negate())),t.dispersion>0&&(e.dispersion.value=t.dispersion),t.retroreflectivity>0&&(e.retroreflectivity.value=t.retroreflectivity),t.iridescence>0&&(e.iridescence.value=t.iridescence,e.iridescenceIOR.value=t.iridescenceIOR,e.iridescenceThicknessMinimum.value=t.iridescenceThicknessMinimum,e.iridescenceThicknessMaximum.value=t.iridescenceThicknessMaximum,t.iridescenceMap&&(e.iridescenceMap.value=t.iridescenceMap,n(t.iridescenceMap,e.iridescenceMapTransform)),t.iridescenceThicknessMap&&(e.iridescenceThicknessMap.value=t.iridescenceThicknessMap,n(t.iridescenceThicknessMap,e.iridescenceThicknessMapTransform))),t.transmission>0&&(e.transmission.value=t.transmission,e.transmissionSamplerMap.value=r.texture,e.transmissionSamplerSize.value.set(r.width,r.height),t.transmissionMap&&(e.transmissionMap.value=t.transmissionMap,n(t.transmissionMap,e.transmissionMapTransform)),e.thickness.value=t.thickness,t.thicknessMap&&(e.thicknessMap.value=t.thicknessMap,n(t.thicknessMap,e.thicknessMapTransform)),e.attenuationDistance.value=t.attenuationDistance,e.attenuationColor.value.copy(t.attenuationColor)),t.anisotropy>0&&(e.anisotropyVector.value.set(t.anisotropy*Math.cos(t.anisotropyRotation),t.anisotropy*Math.sin(t.anisotropyRotation)),t.anisotropyMap&&(e.anisotropyMap.value=t.anisotropyMap,n(t.anisotropyMap,e.anisotropyMapTransform))),e.specularIntensity.value=t.specularIntensity,e.specularColor.value.copy(t.specularColor),t.specularColorMap&&(e.specularColorMap.value=t.specularColorMap,n(t.specularColorMap,e.specularColorMapTransform)),t.specularIntensityMap&&(e.specularIntensityMap.value=t.specularIntensityMap,n(t.specularIntensityMap,e.specularIntensityMapTransform))}function m(e,t){t.matcap&&(e.matcap.value=t.matcap)}function h(e,n){let r=t.get(n).light;e.referencePosition.value.setFromMatrixPosition(r.matrixWorld),e.nearDistance.value=r.shadow.camera.near,e.farDistance.value=r.shadow.camera.far}return{refreshFogUniforms:r,refreshMaterialUniforms:i}}function wp(e,t,n,r){let i={},a={};function o(e,t){let n=t.program;r.uniformBlockBinding(e,n,i[e.id])}function s(e,n){let o=i[e.id];o===void 0&&(m(e),o=c(e),i[e.id]=o,e.addEventListener(`dispose`,g));let s=n.program;r.updateUBOMapping(e,s);let u=t.render.frame;a[e.id]!==u&&(l(e),a[e.id]=u)}function c(t){let n=e.createBuffer(),r=t.__size,i=t.usage;return e.bindBuffer(e.UNIFORM_BUFFER,n),e.bufferData(e.UNIFORM_BUFFER,r,i),e.bindBuffer(e.UNIFORM_BUFFER,null),n}function l(t){let n=i[t.id],r=t.uniforms,a=t.__cache;e.bindBuffer(e.UNIFORM_BUFFER,n);for(let e=0,t=r.length;e<t;e++){let t=r[e];if(Array.isArray(t))for(let n=0,r=t.length;n<r;n++)u(t[n],e,n,a);else u(t,e,0,a)}e.bindBuffer(e.UNIFORM_BUFFER,null)}function u(t,n,r,i){if(f(t,n,r,i)===!0){let n=t.__offset,r=t.value;if(Array.isArray(r)){let e=0;for(let n=0;n<r.length;n++){let i=r[n],a=h(i,!0);d(i,t.__data,e),e+=a.storage/Float32Array.BYTES_PER_ELEMENT}}else d(r,t.__data,0);e.bufferSubData(e.UNIFORM_BUFFER,n,t.__data)}}function d(e,t,n){typeof e==`number`||typeof e==`boolean`?t[n]=e:e.isMatrix3?(t[n]=e.elements[0],t[n+1]=e.elements[1],t[n+2]=e.elements[2],t[n+3]=0,t[n+4]=e.elements[3],t[n+5]=e.elements[4],t[n+6]=e.elements[5],t[n+7]=0,t[n+8]=e.elements[6],t[n+9]=e.elements[7],t[n+10]=e.elements[8],t[n+11]=0):ArrayBuffer.isView(e)?t.set(e.subarray(0,t.length-n),n):e.toArray(t,n)}function f(e,t,n,r){let i=e.value,a=t+`_`+n;if(Array.isArray(i)){r[a]===void 0&&(r[a]=[]);let e=r[a],t=!1;for(let n=0;n<i.length;n++)p(i[n],e,n)===!0&&(t=!0);return t}return p(i,r,a)}function p(e,t,n){if(t[n]===void 0)return t[n]=typeof e==`number`||typeof e==`boolean`?e:ArrayBuffer.isView(e)?e.slice():e.clone(),!0;{let r=t[n];if(typeof e==`number`||typeof e==`boolean`){if(r!==e)return t[n]=e,!0}else if(ArrayBuffer.isView(e))return!0;else if(r.equals(e)===!1)return r.copy(e),!0}return!1}function m(e){let t=e.uniforms,n=0;for(let e=0,r=t.length;e<r;e++){let r=Array.isArray(t[e])?t[e]:[t[e]];for(let i=0,a=r.length;i<a;i++){let a=r[i],o=Array.isArray(a.value)?a.value:[a.value],s=Array.isArray(t[e])||Array.isArray(a.value),c=n;for(let e=0,t=o.length;e<t;e++){let t=o[e],r=h(t,s),i=n%16,a=i%r.boundary,l=i+a;n+=a,l!==0&&16-l<r.storage&&(n+=16-l),e===0&&(c=n),n+=r.storage}a.__data=new(a.type===`int`?Int32Array:a.type===`uint`?Uint32Array:Float32Array)((n-c)/Float32Array.BYTES_PER_ELEMENT),a.__offset=c}}let r=n%16;return r>0&&(n+=16-r),e.__size=n,e.__cache={},this}function h(e,t){let n={boundary:0,storage:0};return typeof e==`number`||typeof e==`boolean`?(n.boundary=4,n.storage=4):e.isVector2?(n.boundary=8,n.storage=8):e.isVector3||e.isColor?(n.boundary=16,n.storage=12):e.isVector4?(n.boundary=16,n.storage=16):e.isMatrix3?(n.boundary=16,n.storage=48):e.isMatrix4?(n.boundary=16,n.storage=64):e.isTexture?K(`WebGLRenderer: Texture samplers can not be part of an uniforms group.`):ArrayBuffer.isView(e)?(n.boundary=16,n.storage=e.byteLength):K(`WebGLRenderer: Unsupported uniform value type.`,e),t===!0&&(n.boundary=16,n.storage=Math.ceil(n.storage/16)*16),n}function g(t){let n=t.target;n.removeEventListener(`dispose`,g),e.deleteBuffer(i[n.id]),delete i[n.id],delete a[n.id]}function _(){for(let t in i)e.deleteBuffer(i[t]);i={},a={}}return{bind:o,update:s,dispose:_}}var Tp=new Uint16Array([12469,15057,12620,14925,13266,14620,13807,14376,14323,13990,14545,13625,14713,13328,14840,12882,14931,12528,14996,12233,15039,11829,15066,11525,15080,11295,15085,10976,15082,10705,15073,10495,13880,14564,13898,14542,13977,14430,14158,14124,14393,13732,14556,13410,14702,12996,14814,12596,14891,12291,14937,11834,14957,11489,14958,11194,14943,10803,14921,10506,14893,10278,14858,9960,14484,14039,14487,14025,14499,13941,14524,13740,14574,13468,14654,13106,14743,12678,14818,12344,14867,11893,14889,11509,14893,11180,14881,10751,14852,10428,14812,10128,14765,9754,14712,9466,14764,13480,14764,13475,14766,13440,14766,13347,14769,13070,14786,12713,14816,12387,14844,11957,14860,11549,14868,11215,14855,10751,14825,10403,14782,10044,14729,9651,14666,9352,14599,9029,14967,12835,14966,12831,14963,12804,14954,12723,14936,12564,14917,12347,14900,11958,14886,11569,14878,11247,14859,10765,14828,10401,14784,10011,14727,9600,14660,9289,14586,8893,14508,8533,15111,12234,15110,12234,15104,12216,15092,12156,15067,12010,15028,11776,14981,11500,14942,11205,14902,10752,14861,10393,14812,9991,14752,9570,14682,9252,14603,8808,14519,8445,14431,8145,15209,11449,15208,11451,15202,11451,15190,11438,15163,11384,15117,11274,15055,10979,14994,10648,14932,10343,14871,9936,14803,9532,14729,9218,14645,8742,14556,8381,14461,8020,14365,7603,15273,10603,15272,10607,15267,10619,15256,10631,15231,10614,15182,10535,15118,10389,15042,10167,14963,9787,14883,9447,14800,9115,14710,8665,14615,8318,14514,7911,14411,7507,14279,7198,15314,9675,15313,9683,15309,9712,15298,9759,15277,9797,15229,9773,15166,9668,15084,9487,14995,9274,14898,8910,14800,8539,14697,8234,14590,7790,14479,7409,14367,7067,14178,6621,15337,8619,15337,8631,15333,8677,15325,8769,15305,8871,15264,8940,15202,8909,15119,8775,15022,8565,14916,8328,14804,8009,14688,7614,14569,7287,14448,6888,14321,6483,14088,6171,15350,7402,15350,7419,15347,7480,15340,7613,15322,7804,15287,7973,15229,8057,15148,8012,15046,7846,14933,7611,14810,7357,14682,7069,14552,6656,14421,6316,14251,5948,14007,5528,15356,5942,15356,5977,15353,6119,15348,6294,15332,6551,15302,6824,15249,7044,15171,7122,15070,7050,14949,6861,14818,6611,14679,6349,14538,6067,14398,5651,14189,5311,13935,4958,15359,4123,15359,4153,15356,4296,15353,4646,15338,5160,15311,5508,15263,5829,15188,6042,15088,6094,14966,6001,14826,5796,14678,5543,14527,5287,14377,4985,14133,4586,13869,4257,15360,1563,15360,1642,15358,2076,15354,2636,15341,3350,15317,4019,15273,4429,15203,4732,15105,4911,14981,4932,14836,4818,14679,4621,14517,4386,14359,4156,14083,3795,13808,3437,15360,122,15360,137,15358,285,15355,636,15344,1274,15322,2177,15281,2765,15215,3223,15120,3451,14995,3569,14846,3567,14681,3466,14511,3305,14344,3121,14037,2800,13753,2467,15360,0,15360,1,15359,21,15355,89,15346,253,15325,479,15287,796,15225,1148,15133,1492,15008,1749,14856,1882,14685,1886,14506,1783,14324,1608,13996,1398,13702,1183]),Ep=null;function Dp(){return Ep===null&&(Ep=new Sc(Tp,16,16,ui,Zr),Ep.name=`DFG_LUT`,Ep.minFilter=Vr,Ep.magFilter=Vr,Ep.wrapS=Ir,Ep.wrapT=Ir,Ep.generateMipmaps=!1,Ep.needsUpdate=!0),Ep}var Op=class{constructor(e={}){let{canvas:t=pa(),context:n=null,depth:r=!0,stencil:i=!1,alpha:a=!1,antialias:o=!1,premultipliedAlpha:s=!0,preserveDrawingBuffer:c=!1,powerPreference:l=`default`,failIfMajorPerformanceCaveat:u=!1,reversedDepthBuffer:d=!1,outputBufferType:f=Wr}=e;this.isWebGLRenderer=!0;let p;if(n!==null){if(typeof WebGLRenderingContext<`u`&&n instanceof WebGLRenderingContext)throw Error(`THREE.WebGLRenderer: WebGL 1 is not supported since r163.`);p=n.getContextAttributes().alpha}else p=a;let m=f,h=new Set([fi,di,li]),g=new Set([Wr,Yr,qr,ei,Qr,$r]),_=new Uint32Array(4),v=new Int32Array(4),y={textures:[],min:[],max:[],resolution:[]},b=null,x=null,S=[],C=[],w=null;this.domElement=t,this.debug={checkShaderErrors:!0,diagnostics:{keywords:!1},onShaderError:null},this.autoClear=!0,this.autoClearColor=!0,this.autoClearDepth=!0,this.autoClearStencil=!0,this.sortObjects=!0,this.clippingPlanes=[],this.localClippingEnabled=!1,this.toneMapping=0,this.toneMappingExposure=1,this.transmissionResolutionScale=1;let T=this,E=!1,D=null,O=null,k=null,A=null;this._outputColorSpace=ra;let j=0,ee=0,M=null,N=-1,te=null,ne=new po,re=new po,ie=null,ae=new $o(0),oe=0,se=t.width,ce=t.height,le=1,ue=null,de=null,fe=new po(0,0,se,ce),pe=new po(0,0,se,ce),me=!1,he=new Ec,ge=new Oc,P=!1,_e=!1,ve=new vo,ye=new X,be=new po,xe={background:null,fog:null,environment:null,overrideMaterial:null,isScene:!0},Se=!1;function Ce(){return M===null?le:1}let F=n;function we(e,n){return t.getContext(e,n)}let Te,Ee,I,De,L,R,Oe,ke,Ae,je,Me,Ne,Pe,Fe,Ie,Le,Re,ze,Be,Ve,He,Ue,We;try{let e={alpha:!0,depth:r,stencil:i,antialias:o,premultipliedAlpha:s,preserveDrawingBuffer:c,powerPreference:l,failIfMajorPerformanceCaveat:u};if(`setAttribute`in t&&t.setAttribute(`data-engine`,`three.js r187`),t.addEventListener(`webglcontextlost`,qe,!1),t.addEventListener(`webglcontextrestored`,Je,!1),t.addEventListener(`webglcontextcreationerror`,Ye,!1),F===null){let t=`webgl2`;if(F=we(t,e),F===null)throw we(t)?Error(`THREE.WebGLRenderer: Error creating WebGL context with your selected attributes.`):Error(`THREE.WebGLRenderer: Error creating WebGL context.`)}Ge()}catch(e){throw t.removeEventListener(`webglcontextlost`,qe,!1),t.removeEventListener(`webglcontextrestored`,Je,!1),t.removeEventListener(`webglcontextcreationerror`,Ye,!1),q(`WebGLRenderer: `+e.message),e}function Ge(){Te=new qu(F),Te.init(),He=new gp(F,Te),Ee=new Du(F,Te,e,He),I=new mp(F,Te),Ee.reversedDepthBuffer&&d&&I.buffers.depth.setReversed(!0),O=F.createFramebuffer(),k=F.createFramebuffer(),A=F.createFramebuffer(),De=new Xu(F),L=new Jf,R=new hp(F,Te,I,L,Ee,He,De),Oe=new Ku(T),ke=new yu(F),Ue=new Tu(F,ke),Ae=new Ju(F,ke,De,Ue),je=new Qu(F,Ae,ke,Ue,De),ze=new Zu(F,Ee,R),Ie=new Ou(L),Me=new qf(T,Oe,Te,Ee,Ue,Ie),Ne=new Cp(T,L),Pe=new Qf,Fe=new ap(Te),Re=new wu(T,Oe,I,je,p,s),Le=new pp(T,je,Ee),We=new wp(F,De,Ee,I),Be=new Eu(F,Te,De),Ve=new Yu(F,Te,De),De.programs=Me.programs,T.capabilities=Ee,T.extensions=Te,T.properties=L,T.renderLists=Pe,T.shadowMap=Le,T.state=I,T.info=De}m!==1009&&(w=new ed(m,t.width,t.height,o,r,i));let Ke=new bp(T,F);this.xr=Ke,this.getContext=function(){return F},this.getContextAttributes=function(){return F.getContextAttributes()},this.forceContextLoss=function(){let e=Te.get(`WEBGL_lose_context`);e&&e.loseContext()},this.forceContextRestore=function(){let e=Te.get(`WEBGL_lose_context`);e&&e.restoreContext()},this.getPixelRatio=function(){return le},this.setPixelRatio=function(e){e!==void 0&&(le=e,this.setSize(se,ce,!1))},this.getSize=function(e){return e.set(se,ce)},this.setSize=function(e,n,r=!0){Ke.isPresenting?K(`WebGLRenderer: Can't change size while VR device is presenting.`):(se=e,ce=n,t.width=Math.floor(e*le),t.height=Math.floor(n*le),r===!0&&(t.style.width=e+`px`,t.style.height=n+`px`),w!==null&&w.setSize(t.width,t.height),this.setViewport(0,0,e,n))},this.getDrawingBufferSize=function(e){return e.set(se*le,ce*le).floor()},this.setDrawingBufferSize=function(e,n,r){se=e,ce=n,le=r,t.width=Math.floor(e*r),t.height=Math.floor(n*r),this.setViewport(0,0,e,n)},this.setEffects=function(e){if(m===1009)q(`WebGLRenderer: setEffects() requires outputBufferType set to HalfFloatType or FloatType.`);else{if(e){for(let t=0;t<e.length;t++)if(e[t].isOutputPass===!0){K(`WebGLRenderer: OutputPass is not needed in setEffects(). Tone mapping and color space conversion are applied automatically.`);break}}w.setEffects(e||[])}},this.getCurrentViewport=function(e){return e.copy(ne)},this.getViewport=function(e){return e.copy(fe)},this.setViewport=function(e,t,n,r){e.isVector4?fe.set(e.x,e.y,e.z,e.w):fe.set(e,t,n,r),I.viewport(ne.copy(fe).multiplyScalar(Ce()).round())},this.getScissor=function(e){return e.copy(pe)},this.setScissor=function(e,t,n,r){e.isVector4?pe.set(e.x,e.y,e.z,e.w):pe.set(e,t,n,r),I.scissor(re.copy(pe).multiplyScalar(Ce()).round())},this.getScissorTest=function(){return me},this.setScissorTest=function(e){I.setScissorTest(me=e)},this.setOpaqueSort=function(e){ue=e},this.setTransparentSort=function(e){de=e},this.getClearColor=function(e){return e.copy(Re.getClearColor())},this.setClearColor=function(){Re.setClearColor(...arguments)},this.getClearAlpha=function(){return Re.getClearAlpha()},this.setClearAlpha=function(){Re.setClearAlpha(...arguments)},this.clear=function(e=!0,t=!0,n=!0){let r=0;if(e){let e=!1;if(M!==null){let t=M.texture.format;e=h.has(t)}if(e){let e=M.texture.type,t=g.has(e),n=Re.getClearColor(),r=Re.getClearAlpha(),i=n.r,a=n.g,o=n.b;t?(_[0]=i,_[1]=a,_[2]=o,_[3]=r,F.clearBufferuiv(F.COLOR,0,_)):(v[0]=i,v[1]=a,v[2]=o,v[3]=r,F.clearBufferiv(F.COLOR,0,v))}else r|=F.COLOR_BUFFER_BIT}t&&(r|=F.DEPTH_BUFFER_BIT,this.state.buffers.depth.setMask(!0)),n&&(r|=F.STENCIL_BUFFER_BIT,this.state.buffers.stencil.setMask(4294967295)),r!==0&&F.clear(r)},this.clearColor=function(){this.clear(!0,!1,!1)},this.clearDepth=function(){this.clear(!1,!0,!1)},this.clearStencil=function(){this.clear(!1,!1,!0)},this.setNodesHandler=function(e){e.setRenderer(this),D=e},this.dispose=function(){t.removeEventListener(`webglcontextlost`,qe,!1),t.removeEventListener(`webglcontextrestored`,Je,!1),t.removeEventListener(`webglcontextcreationerror`,Ye,!1),Re.dispose(),Pe.dispose(),Fe.dispose(),R.dispose(),L.dispose(),Oe.dispose(),je.dispose(),Ae.dispose(),Ue.dispose(),We.dispose(),Me.dispose(),Ke.dispose(),Ke.removeEventListener(`sessionstart`,nt),Ke.removeEventListener(`sessionend`,rt),it.stop()};function qe(e){e.preventDefault(),ha(`WebGLRenderer: Context Lost.`),E=!0}function Je(){ha(`WebGLRenderer: Context Restored.`),E=!1;let e=De.autoReset,t=Le.enabled,n=Le.autoUpdate,r=Le.needsUpdate,i=Le.type;Ge(),De.autoReset=e,Le.enabled=t,Le.autoUpdate=n,Le.needsUpdate=r,Le.type=i}function Ye(e){q(`WebGLRenderer: A WebGL context could not be created. Reason: `,e.statusMessage)}function Xe(e){let t=e.target;t.removeEventListener(`dispose`,Xe),Ze(t)}function Ze(e){Qe(e),L.remove(e)}function Qe(e){let t=L.get(e).programs;t!==void 0&&(t.forEach(function(e){Me.releaseProgram(e)}),e.isShaderMaterial&&Me.releaseShaderCache(e))}this.renderBufferDirect=function(e,t,n,r,i,a){t===null&&(t=xe);let o=i.isMesh&&i.matrixWorld.determinantAffine()<0,s=ht(e,t,n,r,i);I.setMaterial(r,o);let c=n.index,l=1;if(r.wireframe===!0){if(c=Ae.getWireframeAttribute(n),c===void 0)return;l=2}let u=n.drawRange,d=n.attributes.position,f=u.start*l,p=(u.start+u.count)*l;a!==null&&(f=Math.max(f,a.start*l),p=Math.min(p,(a.start+a.count)*l)),c===null?d!=null&&(f=Math.max(f,0),p=Math.min(p,d.count)):(f=Math.max(f,0),p=Math.min(p,c.count));let m=p-f;if(m<0||m===1/0)return;Ue.setup(i,r,s,n,c);let h,g=Be;if(c!==null&&(h=ke.get(c),g=Ve,g.setIndex(h)),i.isMesh)r.wireframe===!0?(I.setLineWidth(r.wireframeLinewidth*Ce()),g.setMode(F.LINES)):g.setMode(F.TRIANGLES);else if(i.isLine){let e=r.linewidth;e===void 0&&(e=1),I.setLineWidth(e*Ce()),i.isLineSegments?g.setMode(F.LINES):i.isLineLoop?g.setMode(F.LINE_LOOP):g.setMode(F.LINE_STRIP)}else i.isPoints?g.setMode(F.POINTS):i.isSprite&&g.setMode(F.TRIANGLES);if(i.isBatchedMesh){if(Te.get(`WEBGL_multi_draw`))g.renderMultiDraw(i._multiDrawStarts,i._multiDrawCounts,i._multiDrawCount);else{let e=i._multiDrawStarts,t=i._multiDrawCounts,n=i._multiDrawCount,a=c?ke.get(c).bytesPerElement:1,o=L.get(r).currentProgram.getUniforms();for(let r=0;r<n;r++)o.setValue(F,`_gl_DrawID`,r),g.render(e[r]/a,t[r])}}else if(i.isInstancedMesh)g.renderInstances(f,m,i.count);else if(n.isInstancedBufferGeometry){let e=n._maxInstanceCount===void 0?1/0:n._maxInstanceCount,t=Math.min(n.instanceCount,e);g.renderInstances(f,m,t)}else g.render(f,m)};function $e(e,t,n,r){D!==null&&e.isNodeMaterial&&D.setObject(r,e),P===!0&&Ie.setState(e,n,!1),e.transparent===!0&&e.side===2&&e.forceSinglePass===!1?(e.side=1,e.needsUpdate=!0,dt(e,t,r),e.side=0,e.needsUpdate=!0,dt(e,t,r),e.side=2):dt(e,t,r)}this.compile=function(e,t,n=null){n===null&&(n=e),D!==null&&D.renderStart(e,t,n),x=Fe.get(n),x.init(t),C.push(x),n.traverseVisible(function(e){e.isLight&&e.layers.test(t.layers)&&(x.pushLight(e),e.castShadow&&x.pushShadow(e))}),e!==n&&e.traverseVisible(function(e){e.isLight&&e.layers.test(t.layers)&&(x.pushLight(e),e.castShadow&&x.pushShadow(e))}),x.setupLights(),D!==null&&D.updateLights(x.state.lightsArray),_e=this.localClippingEnabled,P=Ie.init(this.clippingPlanes,_e),P===!0&&Ie.setGlobalState(this.clippingPlanes,t),D!==null&&Le.render(x.state.shadowsArray,n,t);let r=new Set;return e.traverse(function(e){if(!(e.isMesh||e.isPoints||e.isLine||e.isSprite))return;let i=e.material;if(i){if(Array.isArray(i))for(let a=0;a<i.length;a++){let o=i[a];$e(o,n,t,e),r.add(o)}else $e(i,n,t,e),r.add(i)}}),x=C.pop(),D!==null&&D.renderEnd(),r},this.compileAsync=function(e,t,n=null){let r=this.compile(e,t,n);return new Promise(t=>{function n(){r.forEach(function(e){let t=L.get(e).currentProgram;(t===void 0||t.isReady())&&r.delete(e)}),r.size===0?t(e):setTimeout(n,10)}Te.get(`KHR_parallel_shader_compile`)===null?setTimeout(n,10):n()})};let et=null;function tt(e){et&&et(e)}function nt(){it.stop()}function rt(){it.start()}let it=new vu;it.setAnimationLoop(tt),typeof self<`u`&&it.setContext(self),this.setAnimationLoop=function(e){et=e,Ke.setAnimationLoop(e),e===null?it.stop():it.start()},Ke.addEventListener(`sessionstart`,nt),Ke.addEventListener(`sessionend`,rt),this.render=function(e,t){if(t!==void 0&&t.isCamera!==!0){q(`WebGLRenderer.render: camera is not an instance of THREE.Camera.`);return}if(E===!0)return;D!==null&&D.renderStart(e,t);let n=Ke.enabled===!0&&Ke.isPresenting===!0,r=w!==null&&(M===null||n)&&w.begin(T,M);if(e.matrixWorldAutoUpdate===!0&&e.updateMatrixWorld(),t.parent===null&&t.matrixWorldAutoUpdate===!0&&t.updateMatrixWorld(),Ke.enabled===!0&&Ke.isPresenting===!0&&(w===null||w.isCompositing()===!1)&&(Ke.cameraAutoUpdate===!0&&Ke.updateCamera(t),t=Ke.getCamera()),e.isScene===!0&&e.onBeforeRender(T,e,t,M),x=Fe.get(e,C.length),x.init(t),x.state.textureUnits=R.getTextureUnits(),C.push(x),ve.multiplyMatrices(t.projectionMatrix,t.matrixWorldInverse),t.isArrayCamera?ge.setFromArrayCamera(t):he.setFromProjectionMatrix(ve,la,t.reversedDepth),_e=this.localClippingEnabled,P=Ie.init(this.clippingPlanes,_e),b=Pe.get(e,S.length),b.init(),S.push(b),this.info.render.frame++,Ke.enabled===!0&&Ke.isPresenting===!0){let e=T.xr.getDepthSensingMesh();e!==null&&at(e,t,-1/0,T.sortObjects)}at(e,t,0,T.sortObjects),b.finish(),D!==null&&D.updateLights(x.state.lightsArray),T.sortObjects===!0&&b.sort(ue,de),Se=Ke.enabled===!1||Ke.isPresenting===!1||Ke.hasDepthSensing()===!1,Se&&Re.addToRenderList(b,e),this.info.autoReset===!0&&this.info.reset(),P===!0&&Ie.beginShadows();let i=x.state.shadowsArray;if(Le.render(i,e,t),P===!0&&Ie.endShadows(),(r&&w.hasRenderPass())===!1){let n=b.opaque,r=b.transmissive;if(x.setupLights(),t.isArrayCamera){let i=t.cameras;if(r.length>0)for(let t=0,a=i.length;t<a;t++){let a=i[t];st(n,r,e,a)}Se&&Re.render(e);for(let t=0,n=i.length;t<n;t++){let n=i[t];ot(b,e,n,n.viewport)}}else r.length>0&&st(n,r,e,t),Se&&Re.render(e),ot(b,e,t)}M!==null&&ee===0&&(R.updateMultisampleRenderTarget(M),R.updateRenderTargetMipmap(M)),r&&w.end(T),e.isScene===!0&&e.onAfterRender(T,e,t),Ue.resetDefaultState(),N=-1,te=null,C.pop(),C.length>0?(x=C[C.length-1],R.setTextureUnits(x.state.textureUnits),P===!0&&Ie.setGlobalState(T.clippingPlanes,x.state.camera)):x=null,S.pop(),b=S.length>0?S[S.length-1]:null,D!==null&&D.renderEnd()};function at(e,t,n,r){if(e.visible===!1)return;if(e.layers.test(t.layers)){if(e.isGroup)n=e.renderOrder;else if(e.isLOD)e.autoUpdate===!0&&e.update(t);else if(e.isLight)x.pushLight(e),e.castShadow&&x.pushShadow(e);else if(e.isSprite){let i=t.isArrayCamera?ge:he;if(!e.frustumCulled||e.intersectsFrustum(i)){r&&be.setFromMatrixPosition(e.matrixWorld).applyMatrix4(ve);let i=je.update(e),a=e.material;a.visible&&b.push(e,i,a,n,be.z,null,t)}}else if(e.isMesh||e.isLine||e.isPoints){let i=t.isArrayCamera?ge:he;if(!e.frustumCulled||e.intersectsFrustum(i)){let i=je.update(e),a=e.material;if(r&&(e.boundingSphere===void 0?(i.boundingSphere===null&&i.computeBoundingSphere(),be.copy(i.boundingSphere.center)):(e.boundingSphere===null&&e.computeBoundingSphere(),be.copy(e.boundingSphere.center)),be.applyMatrix4(e.matrixWorld).applyMatrix4(ve)),Array.isArray(a)){let r=i.groups;for(let o=0,s=r.length;o<s;o++){let s=r[o],c=a[s.materialIndex];c&&c.visible&&b.push(e,i,c,n,be.z,s,t)}}else a.visible&&b.push(e,i,a,n,be.z,null,t)}}}let i=e.children;for(let e=0,a=i.length;e<a;e++)at(i[e],t,n,r)}function ot(e,t,n,r){let{opaque:i,transmissive:a,transparent:o}=e;x.setupLightsView(n),P===!0&&Ie.setGlobalState(T.clippingPlanes,n),r&&I.viewport(ne.copy(r)),i.length>0&&ct(i,t,n),a.length>0&&ct(a,t,n),o.length>0&&ct(o,t,n),I.buffers.depth.setTest(!0),I.buffers.depth.setMask(!0),I.buffers.color.setMask(!0),I.setPolygonOffset(!1)}function st(e,t,n,r){if((n.isScene===!0?n.overrideMaterial:null)!==null)return;if(x.state.transmissionRenderTarget[r.id]===void 0){let e=Te.has(`EXT_color_buffer_half_float`)||Te.has(`EXT_color_buffer_float`);x.state.transmissionRenderTarget[r.id]=new ho(1,1,{generateMipmaps:!0,type:e?Zr:Wr,minFilter:Ur,samples:Math.max(4,Ee.samples),stencilBuffer:i,resolveDepthBuffer:!1,resolveStencilBuffer:!1,storeMultisampledDepthBuffer:!1,storeMultisampledStencilBuffer:!1,colorSpace:to.workingColorSpace})}let a=x.state.transmissionRenderTarget[r.id],o=r.viewport||ne;a.setSize(o.z*T.transmissionResolutionScale,o.w*T.transmissionResolutionScale);let s=T.getRenderTarget(),c=T.getActiveCubeFace(),l=T.getActiveMipmapLevel();T.setRenderTarget(a),T.getClearColor(ae),oe=T.getClearAlpha(),oe<1&&T.setClearColor(16777215,.5),T.clear(),Se&&Re.render(n);let u=T.toneMapping;T.toneMapping=0;let d=r.viewport;if(r.viewport!==void 0&&(r.viewport=void 0),x.setupLightsView(r),P===!0&&Ie.setGlobalState(T.clippingPlanes,r),ct(e,n,r),R.updateMultisampleRenderTarget(a),R.updateRenderTargetMipmap(a),Te.has(`WEBGL_multisampled_render_to_texture`)===!1){let e=!1;for(let i=0,a=t.length;i<a;i++){let{object:a,geometry:o,material:s,group:c}=t[i];if(s.side===2&&a.layers.test(r.layers)){let t=s.side;s.side=1,s.needsUpdate=!0,lt(a,n,r,o,s,c),s.side=t,s.needsUpdate=!0,e=!0}}e===!0&&(R.updateMultisampleRenderTarget(a),R.updateRenderTargetMipmap(a))}T.setRenderTarget(s,c,l),T.setClearColor(ae,oe),d!==void 0&&(r.viewport=d),T.toneMapping=u}function ct(e,t,n){let r=t.isScene===!0?t.overrideMaterial:null;for(let i=0,a=e.length;i<a;i++){let a=e[i],{object:o,geometry:s,group:c}=a,l=a.material;l.allowOverride===!0&&r!==null&&(l=r),o.layers.test(n.layers)&&lt(o,t,n,s,l,c)}}function lt(e,t,n,r,i,a){D!==null&&i.isNodeMaterial&&D.setObject(e,i),e.onBeforeRender(T,t,n,r,i,a),e.modelViewMatrix.multiplyMatrices(n.matrixWorldInverse,e.matrixWorld),e.normalMatrix.getNormalMatrix(e.modelViewMatrix),i.onBeforeRender(T,t,n,r,e,a),i.transparent===!0&&i.side===2&&i.forceSinglePass===!1?(i.side=1,i.needsUpdate=!0,T.renderBufferDirect(n,t,r,i,e,a),i.side=0,i.needsUpdate=!0,T.renderBufferDirect(n,t,r,i,e,a),i.side=2):T.renderBufferDirect(n,t,r,i,e,a),e.onAfterRender(T,t,n,r,i,a)}function ut(e){let t=0;for(let n of e)n.texture!==null&&t++;return t}function dt(e,t,n){t.isScene!==!0&&(t=xe);let r=L.get(e),i=x.state.lights,a=x.state.shadowsArray,o=i.state.version,s=Me.getParameters(e,i.state,a,t,n,x.state.lightProbeGridArray),c=Me.getProgramCacheKey(s),l=r.programs;r.environment=e.isMeshStandardMaterial||e.isMeshLambertMaterial||e.isMeshPhongMaterial?t.environment:null,r.fog=t.fog;let u=e.isMeshStandardMaterial||e.isMeshLambertMaterial&&!e.envMap||e.isMeshPhongMaterial&&!e.envMap;r.envMap=Oe.get(e.envMap||r.environment,u),r.envMapRotation=r.environment!==null&&e.envMap===null?t.environmentRotation:e.envMapRotation,l===void 0&&(e.addEventListener(`dispose`,Xe),l=new Map,r.programs=l,r.programVariants=new Map);let d=l.get(c);if(d!==void 0){if(r.currentProgram===d&&r.lightsStateVersion===o)return mt(e,s),d}else s.uniforms=Me.getUniforms(e),D!==null&&e.isNodeMaterial&&D.build(e,n,s),e.onBeforeCompile(s,T),d=Me.acquireProgram(s,c),l.set(c,d),r.uniforms=s.uniforms;let f=r.uniforms;return(!e.isShaderMaterial&&!e.isRawShaderMaterial||e.clipping===!0)&&(f.clippingPlanes=Ie.uniform),mt(e,s),r.needsLights=z(e),r.lightsStateVersion=o,r.needsLights&&(f.ambientLightColor.value=i.state.ambient,f.lightProbe.value=i.state.probe,f.sunLights.value=i.state.sun,f.sunLightShadows.value=i.state.sunShadow,f.directionalLights.value=i.state.directional,f.directionalLightShadows.value=i.state.directionalShadow,f.spotLights.value=i.state.spot,f.spotLightShadows.value=i.state.spotShadow,f.rectAreaLights.value=i.state.rectArea,f.ltc_1.value=i.state.rectAreaLTC1,f.ltc_2.value=i.state.rectAreaLTC2,f.pointLights.value=i.state.point,f.pointLightShadows.value=i.state.pointShadow,f.hemisphereLights.value=i.state.hemi,f.sunShadowMatrix.value=i.state.sunShadowMatrix,f.sunShadowCascade.value=i.state.sunShadowCascade,f.directionalShadowMatrix.value=i.state.directionalShadowMatrix,f.spotLightMatrix.value=i.state.spotLightMatrix,f.spotLightMap.value=i.state.spotLightMap,f.pointShadowMatrix.value=i.state.pointShadowMatrix),r.numLightProbeGrids=ut(x.state.lightProbeGridArray),r.currentProgram=d,r.uniformsList=null,d}function ft(e,t,n,r,i){let a=L.get(e),o=a.currentProgram.id+`,`+r+`,`+i,s=a.programVariants.get(o);return s===void 0?(s=dt(e,t,n),a.programVariants.set(o,s)):(a.currentProgram=s,a.uniformsList=null,a.outputColorSpace=r,a.toneMapping=i),s}function pt(e){if(e.uniformsList===null){let t=e.currentProgram.getUniforms();e.uniformsList=uf.seqWithValue(t.seq,e.uniforms)}return e.uniformsList}function mt(e,t){let n=L.get(e);n.outputColorSpace=t.outputColorSpace,n.batching=t.batching,n.batchingColor=t.batchingColor,n.instancing=t.instancing,n.instancingColor=t.instancingColor,n.instancingMorph=t.instancingMorph,n.skinning=t.skinning,n.morphTargets=t.morphTargets,n.morphNormals=t.morphNormals,n.morphColors=t.morphColors,n.morphTargetsCount=t.morphTargetsCount,n.numClippingPlanes=t.numClippingPlanes,n.numIntersection=t.numClipIntersection,n.vertexAlphas=t.vertexAlphas,n.vertexTangents=t.vertexTangents,n.toneMapping=t.toneMapping}function ht(e,t,n,r,i){t.isScene!==!0&&(t=xe),R.resetTextureUnits();let a=t.fog,o=r.isMeshStandardMaterial||r.isMeshLambertMaterial||r.isMeshPhongMaterial?t.environment:null,s=M===null?T.outputColorSpace:M.isXRRenderTarget===!0?M.texture.colorSpace:to.workingColorSpace,c=r.isMeshStandardMaterial||r.isMeshLambertMaterial&&!r.envMap||r.isMeshPhongMaterial&&!r.envMap,l=Oe.get(r.envMap||o,c),u=r.vertexColors===!0&&!!n.attributes.color&&n.attributes.color.itemSize===4,d=!!n.attributes.tangent&&(!!r.normalMap||r.anisotropy>0),f=!!n.morphAttributes.position,p=!!n.morphAttributes.normal,m=!!n.morphAttributes.color,h=0;r.toneMapped&&(M===null||M.isXRRenderTarget===!0)&&(h=T.toneMapping);let g=n.morphAttributes.position||n.morphAttributes.normal||n.morphAttributes.color,_=g===void 0?0:g.length,v=L.get(r),b=x.state.lights;if(P===!0&&(_e===!0||e!==te)){let t=e===te&&r.id===N;Ie.setState(r,e,t)}let S=!1,C=!1;r.version===v.__version?v.needsLights&&v.lightsStateVersion!==b.state.version||i.isBatchedMesh&&v.batching===!1||!i.isBatchedMesh&&v.batching===!0||i.isBatchedMesh&&v.batchingColor===!0&&i._colorsTexture===null||i.isBatchedMesh&&v.batchingColor===!1&&i._colorsTexture!==null||i.isInstancedMesh&&v.instancing===!1||!i.isInstancedMesh&&v.instancing===!0||i.isSkinnedMesh&&v.skinning===!1||!i.isSkinnedMesh&&v.skinning===!0||i.isInstancedMesh&&v.instancingColor===!0&&i.instanceColor===null||i.isInstancedMesh&&v.instancingColor===!1&&i.instanceColor!==null||i.isInstancedMesh&&v.instancingMorph===!0&&i.morphTexture===null||i.isInstancedMesh&&v.instancingMorph===!1&&i.morphTexture!==null?S=!0:v.envMap===l?r.fog===!0&&v.fog!==a||v.numClippingPlanes!==void 0&&(v.numClippingPlanes!==Ie.numPlanes||v.numIntersection!==Ie.numIntersection)?S=!0:v.vertexAlphas===u&&v.vertexTangents===d&&v.morphTargets===f&&v.morphNormals===p&&v.morphColors===m&&v.morphTargetsCount===_&&v.numLightProbeGrids===ut(x.state.lightProbeGridArray)?(v.outputColorSpace!==s||v.toneMapping!==h)&&(C=!0):S=!0:S=!0:(S=!0,v.__version=r.version);let w=v.currentProgram;(S===!0||C===!0)&&(w=C===!0?ft(r,t,i,s,h):dt(r,t,i),D&&r.isNodeMaterial&&D.onUpdateProgram(r,w,v));let E=!1,O=!1,k=!1,A=w.getUniforms(),j=v.uniforms;if(I.useProgram(w.program)&&(E=!0,O=!0,k=!0),r.id!==N&&(N=r.id,O=!0),E||te!==e){I.buffers.depth.getReversed()&&e.reversedDepth!==!0&&(e._reversedDepth=!0,e.updateProjectionMatrix()),A.setValue(F,`projectionMatrix`,e.projectionMatrix),A.setValue(F,`viewMatrix`,e.matrixWorldInverse);let t=A.map.cameraPosition;t!==void 0&&t.setValue(F,ye.setFromMatrixPosition(e.matrixWorld)),Ee.logarithmicDepthBuffer&&A.setValue(F,`logDepthBufFC`,2/(Math.log(e.far+1)/Math.LN2)),(r.isMeshPhongMaterial||r.isMeshToonMaterial||r.isMeshLambertMaterial||r.isMeshBasicMaterial||r.isMeshStandardMaterial||r.isShaderMaterial)&&A.setValue(F,`isOrthographic`,e.isOrthographicCamera===!0),te!==e&&(te=e,O=!0,k=!0)}if(v.needsLights&&(b.state.sunShadowMap.length>0&&A.setValue(F,`sunShadowMap`,b.state.sunShadowMap,R),b.state.directionalShadowMap.length>0&&A.setValue(F,`directionalShadowMap`,b.state.directionalShadowMap,R),b.state.spotShadowMap.length>0&&A.setValue(F,`spotShadowMap`,b.state.spotShadowMap,R),b.state.pointShadowMap.length>0&&A.setValue(F,`pointShadowMap`,b.state.pointShadowMap,R)),i.isSkinnedMesh){A.setOptional(F,i,`bindMatrix`),A.setOptional(F,i,`bindMatrixInverse`);let e=i.skeleton;e&&(e.boneTexture===null&&e.computeBoneTexture(),A.setValue(F,`boneTexture`,e.boneTexture,R))}i.isBatchedMesh&&(A.setOptional(F,i,`batchingTexture`),A.setValue(F,`batchingTexture`,i._matricesTexture,R),A.setOptional(F,i,`batchingIdTexture`),A.setValue(F,`batchingIdTexture`,i._indirectTexture,R),A.setOptional(F,i,`batchingColorTexture`),i._colorsTexture!==null&&A.setValue(F,`batchingColorTexture`,i._colorsTexture,R));let ee=n.morphAttributes;if((ee.position!==void 0||ee.normal!==void 0||ee.color!==void 0)&&ze.update(i,n,w),(O||v.receiveShadow!==i.receiveShadow)&&(v.receiveShadow=i.receiveShadow,A.setValue(F,`receiveShadow`,i.receiveShadow)),(r.isMeshStandardMaterial||r.isMeshLambertMaterial||r.isMeshPhongMaterial)&&r.envMap===null&&t.environment!==null&&(j.envMapIntensity.value=t.environmentIntensity),j.dfgLUT!==void 0&&(j.dfgLUT.value=Dp()),O){if(A.setValue(F,`toneMappingExposure`,T.toneMappingExposure),v.needsLights&&gt(j,k),a&&r.fog===!0&&Ne.refreshFogUniforms(j,a),Ne.refreshMaterialUniforms(j,r,le,ce,x.state.transmissionRenderTarget[e.id]),v.needsLights&&v.numLightProbeGrids>0){let e=y,t=0;for(let n of x.state.lightProbeGridArray)n.texture!==null&&(e.textures[t]=n.texture,e.min[t]=n.boundingBox.min,e.max[t]=n.boundingBox.max,e.resolution[t]=n.resolution,t++);for(let n in e)e[n].length=t;j.probesSH.value=e.textures,j.probesMin.value=e.min,j.probesMax.value=e.max,j.probesResolution.value=e.resolution}uf.upload(F,pt(v),j,R)}if(r.isShaderMaterial&&r.uniformsNeedUpdate===!0&&(uf.upload(F,pt(v),j,R),r.uniformsNeedUpdate=!1),r.isSpriteMaterial&&A.setValue(F,`center`,i.center),A.setValue(F,`modelViewMatrix`,i.modelViewMatrix),A.setValue(F,`normalMatrix`,i.normalMatrix),A.setValue(F,`modelMatrix`,i.matrixWorld),r.uniformsGroups!==void 0){let e=r.uniformsGroups;for(let t=0,n=e.length;t<n;t++){let n=e[t];We.update(n,w),We.bind(n,w)}}return w}function gt(e,t){e.ambientLightColor.needsUpdate=t,e.lightProbe.needsUpdate=t,e.sunLights.needsUpdate=t,e.sunLightShadows.needsUpdate=t,e.directionalLights.needsUpdate=t,e.directionalLightShadows.needsUpdate=t,e.pointLights.needsUpdate=t,e.pointLightShadows.needsUpdate=t,e.spotLights.needsUpdate=t,e.spotLightShadows.needsUpdate=t,e.rectAreaLights.needsUpdate=t,e.hemisphereLights.needsUpdate=t}function z(e){return e.isMeshLambertMaterial||e.isMeshToonMaterial||e.isMeshPhongMaterial||e.isMeshStandardMaterial||e.isShadowMaterial||e.isShaderMaterial&&e.lights===!0}this.getActiveCubeFace=function(){return j},this.getActiveMipmapLevel=function(){return ee},this.getRenderTarget=function(){return M},this.setRenderTargetTextures=function(e,t,n){let r=L.get(e);r.__autoAllocateDepthBuffer=e.resolveDepthBuffer===!1,r.__autoAllocateDepthBuffer===!1&&(r.__useRenderToTexture=!1),L.get(e.texture).__webglTexture=t,L.get(e.depthTexture).__webglTexture=r.__autoAllocateDepthBuffer?void 0:n,r.__hasExternalTextures=!0},this.setRenderTargetFramebuffer=function(e,t){let n=L.get(e);n.__webglFramebuffer=t,n.__useDefaultFramebuffer=t===void 0},this.setRenderTarget=function(e,t=0,n=0){M=e,j=t,ee=n;let r=null,i=!1,a=!1;if(e){let o=L.get(e);if(o.__useDefaultFramebuffer!==void 0){I.bindFramebuffer(F.FRAMEBUFFER,o.__webglFramebuffer),ne.copy(e.viewport),re.copy(e.scissor),ie=e.scissorTest,I.viewport(ne),I.scissor(re),I.setScissorTest(ie),N=-1;return}if(o.__webglFramebuffer===void 0)R.setupRenderTarget(e);else if(o.__hasExternalTextures)R.rebindTextures(e,L.get(e.texture).__webglTexture,L.get(e.depthTexture).__webglTexture);else if(e.depthBuffer){let t=e.depthTexture;if(o.__boundDepthTexture!==t){if(t!==null&&L.has(t)&&(e.width!==t.image.width||e.height!==t.image.height))throw Error(`THREE.WebGLRenderer: Attached DepthTexture is initialized to the incorrect size.`);R.setupDepthRenderbuffer(e)}}let s=e.texture;(s.isData3DTexture||s.isDataArrayTexture||s.isCompressedArrayTexture)&&(a=!0);let c=L.get(e).__webglFramebuffer;e.isWebGLCubeRenderTarget?(r=Array.isArray(c[t])?c[t][n]:c[t],i=!0):r=e.samples>0&&R.useMultisampledRTT(e)===!1?L.get(e).__webglMultisampledFramebuffer:Array.isArray(c)?c[n]:c,ne.copy(e.viewport),re.copy(e.scissor),ie=e.scissorTest}else ne.copy(fe).multiplyScalar(le).floor(),re.copy(pe).multiplyScalar(le).floor(),ie=me;if(n!==0&&(r=O),I.bindFramebuffer(F.FRAMEBUFFER,r)&&I.drawBuffers(e,r),I.viewport(ne),I.scissor(re),I.setScissorTest(ie),i){let r=L.get(e.texture);F.framebufferTexture2D(F.FRAMEBUFFER,F.COLOR_ATTACHMENT0,F.TEXTURE_CUBE_MAP_POSITIVE_X+t,r.__webglTexture,n)}else if(a){let r=t;for(let t=0;t<e.textures.length;t++){let i=L.get(e.textures[t]);F.framebufferTextureLayer(F.FRAMEBUFFER,F.COLOR_ATTACHMENT0+t,i.__webglTexture,n,r)}}else if(e!==null&&n!==0){let t=L.get(e.texture);F.framebufferTexture2D(F.FRAMEBUFFER,F.COLOR_ATTACHMENT0,F.TEXTURE_2D,t.__webglTexture,n)}N=-1};function _t(e){let t=L.get(e);return(t.__readFormat!==e.format||t.__readType!==e.type)&&(t.__readFormat=e.format,t.__readType=e.type,t.__formatReadable=Ee.textureFormatReadable(e.format),t.__typeReadable=Ee.textureTypeReadable(e.type)),t}this.readRenderTargetPixels=function(e,t,n,r,i,a,o,s=0){if(!(e&&e.isWebGLRenderTarget)){q(`WebGLRenderer.readRenderTargetPixels: renderTarget is not THREE.WebGLRenderTarget.`);return}let c=L.get(e).__webglFramebuffer;if(e.isWebGLCubeRenderTarget&&o!==void 0&&(c=c[o],Array.isArray(c)&&(c=c[0])),c){I.bindFramebuffer(F.FRAMEBUFFER,c);try{let o=e.textures[s],c=o.format,l=o.type;e.textures.length>1&&F.readBuffer(F.COLOR_ATTACHMENT0+s);let u=_t(o);if(u.__formatReadable===!1){q(`WebGLRenderer.readRenderTargetPixels: renderTarget is not in RGBA or implementation defined format.`);return}if(u.__typeReadable===!1){q(`WebGLRenderer.readRenderTargetPixels: renderTarget is not in UnsignedByteType or implementation defined type.`);return}t>=0&&t<=e.width-r&&n>=0&&n<=e.height-i&&F.readPixels(t,n,r,i,He.convert(c),He.convert(l),a)}finally{let e=M===null?null:L.get(M).__webglFramebuffer;I.bindFramebuffer(F.FRAMEBUFFER,e)}}},this.readRenderTargetPixelsAsync=async function(e,t,n,r,i,a,o,s=0){if(!(e&&e.isWebGLRenderTarget))throw Error(`THREE.WebGLRenderer.readRenderTargetPixels: renderTarget is not THREE.WebGLRenderTarget.`);let c=L.get(e).__webglFramebuffer;if(e.isWebGLCubeRenderTarget&&o!==void 0&&(c=c[o],Array.isArray(c)&&(c=c[0])),c){if(t>=0&&t<=e.width-r&&n>=0&&n<=e.height-i){I.bindFramebuffer(F.FRAMEBUFFER,c);let o=e.textures[s],l=o.format,u=o.type;e.textures.length>1&&F.readBuffer(F.COLOR_ATTACHMENT0+s);let d=_t(o);if(d.__formatReadable===!1)throw Error(`THREE.WebGLRenderer.readRenderTargetPixelsAsync: renderTarget is not in RGBA or implementation defined format.`);if(d.__typeReadable===!1)throw Error(`THREE.WebGLRenderer.readRenderTargetPixelsAsync: renderTarget is not in UnsignedByteType or implementation defined type.`);let f=F.createBuffer();F.bindBuffer(F.PIXEL_PACK_BUFFER,f),F.bufferData(F.PIXEL_PACK_BUFFER,a.byteLength,F.STREAM_READ),F.readPixels(t,n,r,i,He.convert(l),He.convert(u),0),F.bindBuffer(F.PIXEL_PACK_BUFFER,null);let p=M===null?null:L.get(M).__webglFramebuffer;I.bindFramebuffer(F.FRAMEBUFFER,p);let m=F.fenceSync(F.SYNC_GPU_COMMANDS_COMPLETE,0);return F.flush(),await va(F,m,4),F.bindBuffer(F.PIXEL_PACK_BUFFER,f),F.getBufferSubData(F.PIXEL_PACK_BUFFER,0,a),F.bindBuffer(F.PIXEL_PACK_BUFFER,null),F.deleteBuffer(f),F.deleteSync(m),a}throw Error(`THREE.WebGLRenderer.readRenderTargetPixelsAsync: requested read bounds are out of range.`)}},this.copyFramebufferToTexture=function(e,t=null,n=0){let r=2**-n,i=Math.floor(e.image.width*r),a=Math.floor(e.image.height*r),o=t===null?0:t.x,s=t===null?0:t.y;R.setTexture2D(e,0),F.copyTexSubImage2D(F.TEXTURE_2D,n,0,0,o,s,i,a),I.unbindTexture()},this.copyTextureToTexture=function(e,t,n=null,r=null,i=0,a=0){let o,s,c,l,u,d,f,p,m,h=e.isCompressedTexture?e.mipmaps[a]:e.image;if(n!==null)o=n.max.x-n.min.x,s=n.max.y-n.min.y,c=n.isBox3?n.max.z-n.min.z:1,l=n.min.x,u=n.min.y,d=n.isBox3?n.min.z:0;else{let t=2**-i;o=Math.floor(h.width*t),s=Math.floor(h.height*t),c=e.isDataArrayTexture?h.depth:e.isData3DTexture?Math.floor(h.depth*t):1,l=0,u=0,d=0}r===null?(f=0,p=0,m=0):(f=r.x,p=r.y,m=r.z);let g=He.convert(t.format),_=He.convert(t.type),v;t.isData3DTexture?(R.setTexture3D(t,0),v=F.TEXTURE_3D):t.isDataArrayTexture||t.isCompressedArrayTexture?(R.setTexture2DArray(t,0),v=F.TEXTURE_2D_ARRAY):(R.setTexture2D(t,0),v=F.TEXTURE_2D),I.activeTexture(F.TEXTURE0),I.pixelStorei(F.UNPACK_FLIP_Y_WEBGL,t.flipY),I.pixelStorei(F.UNPACK_PREMULTIPLY_ALPHA_WEBGL,t.premultiplyAlpha),I.pixelStorei(F.UNPACK_ALIGNMENT,t.unpackAlignment);let y=I.getParameter(F.UNPACK_ROW_LENGTH),b=I.getParameter(F.UNPACK_IMAGE_HEIGHT),x=I.getParameter(F.UNPACK_SKIP_PIXELS),S=I.getParameter(F.UNPACK_SKIP_ROWS),C=I.getParameter(F.UNPACK_SKIP_IMAGES);I.pixelStorei(F.UNPACK_ROW_LENGTH,h.width),I.pixelStorei(F.UNPACK_IMAGE_HEIGHT,h.height),I.pixelStorei(F.UNPACK_SKIP_PIXELS,l),I.pixelStorei(F.UNPACK_SKIP_ROWS,u),I.pixelStorei(F.UNPACK_SKIP_IMAGES,d);let w=e.isDataArrayTexture||e.isData3DTexture,T=t.isDataArrayTexture||t.isData3DTexture;if(e.isDepthTexture){let n=L.get(e),r=L.get(t),h=L.get(n.__renderTarget),g=L.get(r.__renderTarget);I.bindFramebuffer(F.READ_FRAMEBUFFER,h.__webglFramebuffer),I.bindFramebuffer(F.DRAW_FRAMEBUFFER,g.__webglFramebuffer);for(let n=0;n<c;n++)w&&(F.framebufferTextureLayer(F.READ_FRAMEBUFFER,F.COLOR_ATTACHMENT0,L.get(e).__webglTexture,i,d+n),F.framebufferTextureLayer(F.DRAW_FRAMEBUFFER,F.COLOR_ATTACHMENT0,L.get(t).__webglTexture,a,m+n)),F.blitFramebuffer(l,u,l+o,u+s,f,p,f+o,p+s,F.DEPTH_BUFFER_BIT,F.NEAREST);I.bindFramebuffer(F.READ_FRAMEBUFFER,null),I.bindFramebuffer(F.DRAW_FRAMEBUFFER,null)}else if(i!==0||e.isRenderTargetTexture||L.has(e)){let n=L.get(e),r=L.get(t);I.bindFramebuffer(F.READ_FRAMEBUFFER,k),I.bindFramebuffer(F.DRAW_FRAMEBUFFER,A);for(let e=0;e<c;e++)w?F.framebufferTextureLayer(F.READ_FRAMEBUFFER,F.COLOR_ATTACHMENT0,n.__webglTexture,i,d+e):F.framebufferTexture2D(F.READ_FRAMEBUFFER,F.COLOR_ATTACHMENT0,F.TEXTURE_2D,n.__webglTexture,i),T?F.framebufferTextureLayer(F.DRAW_FRAMEBUFFER,F.COLOR_ATTACHMENT0,r.__webglTexture,a,m+e):F.framebufferTexture2D(F.DRAW_FRAMEBUFFER,F.COLOR_ATTACHMENT0,F.TEXTURE_2D,r.__webglTexture,a),i===0?T?F.copyTexSubImage3D(v,a,f,p,m+e,l,u,o,s):F.copyTexSubImage2D(v,a,f,p,l,u,o,s):F.blitFramebuffer(l,u,l+o,u+s,f,p,f+o,p+s,F.COLOR_BUFFER_BIT,F.NEAREST);I.bindFramebuffer(F.READ_FRAMEBUFFER,null),I.bindFramebuffer(F.DRAW_FRAMEBUFFER,null)}else T?e.isDataTexture||e.isData3DTexture?F.texSubImage3D(v,a,f,p,m,o,s,c,g,_,h.data):t.isCompressedArrayTexture?F.compressedTexSubImage3D(v,a,f,p,m,o,s,c,g,h.data):F.texSubImage3D(v,a,f,p,m,o,s,c,g,_,h):e.isDataTexture?F.texSubImage2D(F.TEXTURE_2D,a,f,p,o,s,g,_,h.data):e.isCompressedTexture?F.compressedTexSubImage2D(F.TEXTURE_2D,a,f,p,h.width,h.height,g,h.data):F.texSubImage2D(F.TEXTURE_2D,a,f,p,o,s,g,_,h);I.pixelStorei(F.UNPACK_ROW_LENGTH,y),I.pixelStorei(F.UNPACK_IMAGE_HEIGHT,b),I.pixelStorei(F.UNPACK_SKIP_PIXELS,x),I.pixelStorei(F.UNPACK_SKIP_ROWS,S),I.pixelStorei(F.UNPACK_SKIP_IMAGES,C),a===0&&t.generateMipmaps===!0&&t.mipmapsAutoUpdate===!0&&F.generateMipmap(v),I.unbindTexture()},this.initRenderTarget=function(e){L.get(e).__webglFramebuffer===void 0&&R.setupRenderTarget(e)},this.initTexture=function(e){e.isCubeTexture?R.setTextureCube(e,0):e.isData3DTexture?R.setTexture3D(e,0):e.isDataArrayTexture||e.isCompressedArrayTexture?R.setTexture2DArray(e,0):R.setTexture2D(e,0),I.unbindTexture()},this.resetState=function(){j=0,ee=0,M=null,I.reset(),Ue.reset()},typeof __THREE_DEVTOOLS__<`u`&&__THREE_DEVTOOLS__.dispatchEvent(new CustomEvent(`observe`,{detail:this}))}get coordinateSystem(){return la}get outputColorSpace(){return this._outputColorSpace}set outputColorSpace(e){this._outputColorSpace=e;let t=this.getContext();t.drawingBufferColorSpace=to._getDrawingBufferColorSpace(e),t.unpackColorSpace=to._getUnpackColorSpace()}},kp=class{camera=new Rl(-1,1,1,-1,-400,400);target=new X;height=80;aspect=1;shape(e){this.aspect=e,this.place()}whole(e,t){this.target.copy(e),this.height=Math.max(t,1.2*t/this.aspect),this.place()}look(e,t){let n=new X(...e).normalize(),r=new X(...t).cross(n).normalize(),i=n.clone().cross(r);this.camera.matrix.makeBasis(r,i,n),this.camera.quaternion.setFromRotationMatrix(this.camera.matrix),this.place()}toward(){return new X(0,0,1).applyQuaternion(this.camera.quaternion).toArray()}turn(e,t){let n=this.camera.quaternion,r=new Ja().setFromAxisAngle(new X(0,1,0),-qa.degToRad(e)),i=new Ja().setFromAxisAngle(new X(1,0,0),-qa.degToRad(t));n.multiply(r).multiply(i).normalize(),this.place()}shift(e,t){let n=new X(-e*this.height,-t*this.height,0);this.target.add(n.applyQuaternion(this.camera.quaternion)),this.place()}zoom(e,t){let n=qa.clamp(this.height*e,2,400);t&&this.target.lerp(t,1-n/this.height),this.height=n,this.place()}go(e,t){this.target.set(...e),t&&(this.height=t),this.place()}get mmHigh(){return this.height}place(){let e=this.camera;e.top=this.height/2,e.bottom=-e.top,e.right=e.top*this.aspect,e.left=-e.right,e.position.copy(this.target),e.updateProjectionMatrix(),e.updateMatrixWorld()}},Ap=1.25,jp=65535,Mp=2**-24,Np=Symbol(`SKIP_GENERATION`),Pp={strategy:0,maxDepth:40,targetLeafSize:10,useSharedArrayBuffer:!1,setBoundingBox:!0,onProgress:null,indirect:!1,verbose:!0,range:null,[Np]:!1};function Fp(e,t,n){return n.min.x=t[e],n.min.y=t[e+1],n.min.z=t[e+2],n.max.x=t[e+3],n.max.y=t[e+4],n.max.z=t[e+5],n}function Ip(e){let t=-1,n=-1/0;for(let r=0;r<3;r++){let i=e[r+3]-e[r];i>n&&(n=i,t=r)}return t}function Lp(e,t,n){for(let r=0;r<3;r++){let i=t[e+2*r],a=t[e+2*r+1],o=i-a,s=i+a;o<n[r]&&(n[r]=o),s>n[r+3]&&(n[r+3]=s)}}function Rp(e){let t=e[3]-e[0],n=e[4]-e[1],r=e[5]-e[2];return 2*(t*n+n*r+r*t)}function zp(e,t){return t[e+15]===jp}function Bp(e,t){return t[e+6]}function Vp(e,t){return t[e+14]}function Hp(e){return e+8}function Up(e,t){return e+t[e+6]*8}function Wp(e,t){return t[e+7]}function Gp(e){return e}function Kp(e,t,n,r,i){let a=1/0,o=1/0,s=1/0,c=-1/0,l=-1/0,u=-1/0,d=1/0,f=1/0,p=1/0,m=-1/0,h=-1/0,g=-1/0,_=e.offset||0;for(let r=(t-_)*6,i=(t+n-_)*6;r<i;r+=6){let t=e[r+0],n=e[r+1],i=t-n,_=t+n;i<a&&(a=i),_>c&&(c=_),t<d&&(d=t),t>m&&(m=t);let v=e[r+2],y=e[r+3],b=v-y,x=v+y;b<o&&(o=b),x>l&&(l=x),v<f&&(f=v),v>h&&(h=v);let S=e[r+4],C=e[r+5],w=S-C,T=S+C;w<s&&(s=w),T>u&&(u=T),S<p&&(p=S),S>g&&(g=S)}r[0]=a,r[1]=o,r[2]=s,r[3]=c,r[4]=l,r[5]=u,i[0]=d,i[1]=f,i[2]=p,i[3]=m,i[4]=h,i[5]=g}var qp=8,Jp=8,Yp=new Int32Array(qp),Xp=new Float32Array(48),Zp=new Float32Array(48),Qp=new Float32Array(6),$p=new Float32Array(6),em=new Int32Array(Jp),tm=new Float32Array(48);function nm(e,t,n,r){for(let i=0;i<3;i++){let a=t[e+2*i],o=t[e+2*i+1],s=a-o,c=a+o;s<n[r+i]&&(n[r+i]=s),c>n[r+i+3]&&(n[r+i+3]=c)}}function rm(e,t){let n=e[t+3]-e[t],r=e[t+4]-e[t+1],i=e[t+5]-e[t+2];return 2*(n*r+r*i+i*n)}function im(e,t,n,r,i,a){let o=-1,s=0;if(a===0)o=Ip(t),o!==-1&&(s=(t[o]+t[o+3])/2);else if(a===1)o=Ip(e),o!==-1&&(s=am(n,r,i,o));else if(a===2){let a=Rp(e),c=Ap*i,l=n.offset||0,u=(r-l)*6,d=(r+i-l)*6;for(let e=0;e<3;e++){let r=t[e],l=(t[e+3]-r)/qp;if(i<Jp){for(let t=0;t<i;t++){let r=u+t*6,i=n[r+2*e],a=t;for(;a>0&&n[em[a-1]+2*e]>i;)em[a]=em[a-1],a--;em[a]=r}for(let e=0;e<3;e++)Qp[e]=1/0,Qp[e+3]=-1/0,$p[e]=1/0,$p[e+3]=-1/0;for(let e=i-1;e>=0;e--)Lp(em[e],n,$p),tm.set($p,e*6);for(let t=0;t<i-1;t++){Lp(em[t],n,Qp);let r=n[em[t+1]+2*e];if(n[em[t]+2*e]===r)continue;let l=t+1,u=i-l,d=Rp(Qp)/a,f=rm(tm,l*6)/a,p=1+Ap*(d*l+f*u);p<c&&(o=e,c=p,s=r)}}else{for(let e=0;e<qp;e++){Yp[e]=0;for(let t=0;t<3;t++)Xp[e*6+t]=1/0,Xp[e*6+t+3]=-1/0}for(let t=u;t<d;t+=6){let i=~~((n[t+2*e]-r)/l);i>=qp&&(i=7),Yp[i]++,nm(t,n,Xp,i*6)}for(let e=0;e<6;e++)Zp[42+e]=Xp[42+e];for(let e=6;e>=0;e--){let t=e*6,n=t+6;for(let e=0;e<3;e++)Zp[t+e]=Math.min(Xp[t+e],Zp[n+e]),Zp[t+e+3]=Math.max(Xp[t+e+3],Zp[n+e+3])}let t=0;for(let n=0;n<7;n++){let u=n*6,d=Yp[n];if(d!==0)for(let e=0;e<3;e++)t===0?(Qp[e]=Xp[u+e],Qp[e+3]=Xp[u+e+3]):(Qp[e]=Math.min(Qp[e],Xp[u+e]),Qp[e+3]=Math.max(Qp[e+3],Xp[u+e+3]));t+=d;let f=0,p=0;t!==0&&(f=Rp(Qp)/a);let m=i-t;m!==0&&(p=rm(Zp,u+6)/a);let h=1+Ap*(f*t+p*m);h<c&&(o=e,c=h,s=r+l+n*l)}}}}else console.warn(`BVH: Invalid build strategy value ${a} used.`);return{axis:o,pos:s}}function am(e,t,n,r){let i=0,a=e.offset;for(let o=t,s=t+n;o<s;o++)i+=e[(o-a)*6+r*2];return i/n}function om(e,t,n,r,i,a){let o=r,s=r+i-1,c=a.pos,l=a.axis*2,u=n.offset||0;for(;;){for(;o<=s&&n[(o-u)*6+l]<c;)o++;for(;o<=s&&n[(s-u)*6+l]>=c;)s--;if(o<s){for(let n=0;n<t;n++){let r=e[o*t+n];e[o*t+n]=e[s*t+n],e[s*t+n]=r}for(let e=0;e<6;e++){let t=o-u,r=s-u,i=n[t*6+e];n[t*6+e]=n[r*6+e],n[r*6+e]=i}o++,s--}else return o}}var sm=2**32,cm=new Float32Array(6),lm=new Float32Array(6);function um(e,t,n,r,i,a){let{maxDepth:o,verbose:s,targetLeafSize:c,_strictLeafSize:l=1/0,strategy:u,onProgress:d,useSharedArrayBuffer:f=!1}=i,p=e.primitiveBuffer,m=e.primitiveBufferStride,h=new(f?SharedArrayBuffer:ArrayBuffer)(32*Math.max(1,2*Math.ceil(r)-1)),g=new Float32Array(h),_=new Uint32Array(h),v=new Uint16Array(h),y=0,b=!1;return Kp(t,n,r,cm,lm),C(n,r,0),h.slice(0,y*32);function x(e){d&&d((e-a.offset)/a.count)}function S(e,t,n){let r=e*2;_[e+6]=t,v[r+14]=n,v[r+15]=jp,x(t+n)}function C(e,n,r){let i=y++,a=i*8;g.set(cm,a),!b&&r>=o&&(b=!0,s&&console.warn(`BVH: Max depth of ${o} reached when generating BVH. Consider increasing maxDepth.`));let d=n>l;if(n<=c&&!d||r>=o){S(a,e,n);return}let f=im(cm,lm,t,e,n,u),h=f.axis===-1?-1:om(p,m,t,e,n,f);if(f.axis===-1||h===e||h===e+n){if(!d){S(a,e,n);return}f.axis=Math.max(0,Ip(cm)),h=e+Math.max(1,Math.floor(n/2))}_[a+7]=f.axis;let v=h-e;Kp(t,e,v,cm,lm),C(e,v,r+1);let x=y-i;if(x>sm)throw Error(`MeshBVH: Cannot store relative child node offset greater than 32 bits.`);_[a+6]=x;let w=n-v;Kp(t,h,w,cm,lm),C(h,w,r+1)}}function dm(e,t){let n=e.getRootRanges(t.range),r=n[0],i=n[n.length-1],a={offset:r.offset,count:i.offset+i.count-r.offset},o=new Float32Array(6*a.count);o.offset=a.offset,e.computePrimitiveBounds(a.offset,a.count,o),e._roots=n.map(n=>um(e,o,n.offset,n.count,t,a))}var fm=class{constructor(e){this._getNewPrimitive=e,this._primitives=[]}getPrimitive(){let e=this._primitives;return e.length===0?this._getNewPrimitive():e.pop()}releasePrimitive(e){this._primitives.push(e)}},pm=new class{constructor(){this.float32Array=null,this.uint16Array=null,this.uint32Array=null;let e=[],t=null;this.setBuffer=n=>{t&&e.push(t),t=n,this.float32Array=new Float32Array(n),this.uint16Array=new Uint16Array(n),this.uint32Array=new Uint32Array(n)},this.clearBuffer=()=>{t=null,this.float32Array=null,this.uint16Array=null,this.uint32Array=null,e.length!==0&&this.setBuffer(e.pop())}}},mm,hm,gm=[],_m=new fm(()=>new gs);function vm(e,t,n,r,i,a){mm=_m.getPrimitive(),hm=_m.getPrimitive(),gm.push(mm,hm),pm.setBuffer(e._roots[t]);let o=ym(0,e.geometry,n,r,i,a);pm.clearBuffer(),_m.releasePrimitive(mm),_m.releasePrimitive(hm),gm.pop(),gm.pop();let s=gm.length;return s>0&&(hm=gm[s-1],mm=gm[s-2]),o}function ym(e,t,n,r,i=null,a=0,o=0){let{float32Array:s,uint16Array:c,uint32Array:l}=pm,u=e*2;if(zp(u,c)){let t=Bp(e,l),n=Vp(u,c);return Fp(Gp(e),s,mm),r(t,n,!1,o,a+e/8,mm)}{let u=Hp(e),d=Up(e,l),f=u,p=d,m,h,g,_;if(i&&(g=mm,_=hm,Fp(Gp(f),s,g),Fp(Gp(p),s,_),m=i(g),h=i(_),h<m)){f=d,p=u;let e=m;m=h,h=e,g=_}g||(g=mm,Fp(Gp(f),s,g));let v=zp(f*2,c),y=n(g,v,m,o+1,a+f/8),b;if(y===2){let e=w(f);b=r(e,T(f)-e,!0,o+1,a+f/8,g)}else b=y&&ym(f,t,n,r,i,a,o+1);if(b)return!0;_=hm,Fp(Gp(p),s,_);let x=zp(p*2,c),S=n(_,x,h,o+1,a+p/8),C;if(S===2){let e=w(p);C=r(e,T(p)-e,!0,o+1,a+p/8,_)}else C=S&&ym(p,t,n,r,i,a,o+1);return!!C;function w(e){let{uint16Array:t,uint32Array:n}=pm,r=e*2;for(;!zp(r,t);)e=Hp(e),r=e*2;return Bp(e,n)}function T(e){let{uint16Array:t,uint32Array:n}=pm,r=e*2;for(;!zp(r,t);)e=Up(e,n),r=e*2;return Bp(e,n)+Vp(r,t)}}}var bm=new pm.constructor,xm=new pm.constructor,Sm=new fm(()=>new gs),Cm=new gs,wm=new gs,Tm=new gs,Em=new gs,Dm=!1;function Om(e,t,n,r){if(Dm)throw Error(`MeshBVH: Recursive calls to bvhcast not supported.`);Dm=!0;let i=e._roots,a=t._roots,o,s=0,c=0,l=new vo().copy(n).invert();for(let e=0,t=i.length;e<t;e++){bm.setBuffer(i[e]),c=0;let t=Sm.getPrimitive();Fp(Gp(0),bm.float32Array,t),t.applyMatrix4(l);for(let e=0,i=a.length;e<i&&(xm.setBuffer(a[e]),o=km(0,0,n,l,r,s,c,0,0,t),xm.clearBuffer(),c+=a[e].byteLength/32,!o);e++);if(Sm.releasePrimitive(t),bm.clearBuffer(),s+=i[e].byteLength/32,o)break}return Dm=!1,o}function km(e,t,n,r,i,a=0,o=0,s=0,c=0,l=null,u=!1){let d,f;u?(d=xm,f=bm):(d=bm,f=xm);let p=d.float32Array,m=d.uint32Array,h=d.uint16Array,g=f.float32Array,_=f.uint32Array,v=f.uint16Array,y=e*2,b=t*2,x=zp(y,h),S=zp(b,v),C=!1;if(S&&x)C=u?i(Bp(t,_),Vp(t*2,v),Bp(e,m),Vp(e*2,h),c,o+t/8,s,a+e/8):i(Bp(e,m),Vp(e*2,h),Bp(t,_),Vp(t*2,v),s,a+e/8,c,o+t/8);else if(S){let l=Sm.getPrimitive();Fp(Gp(t),g,l),l.applyMatrix4(n);let d=Hp(e),f=Up(e,m);Fp(Gp(d),p,Cm),Fp(Gp(f),p,wm);let h=l.intersectsBox(Cm),_=l.intersectsBox(wm);C=h&&km(t,d,r,n,i,o,a,c,s+1,l,!u)||_&&km(t,f,r,n,i,o,a,c,s+1,l,!u),Sm.releasePrimitive(l)}else{let d=Hp(t),f=Up(t,_);Fp(Gp(d),g,Tm),Fp(Gp(f),g,Em);let h=l.intersectsBox(Tm),v=l.intersectsBox(Em);if(h&&v)C=km(e,d,n,r,i,a,o,s,c+1,l,u)||km(e,f,n,r,i,a,o,s,c+1,l,u);else if(h){if(x)C=km(e,d,n,r,i,a,o,s,c+1,l,u);else{let t=Sm.getPrimitive();t.copy(Tm).applyMatrix4(n);let l=Hp(e),f=Up(e,m);Fp(Gp(l),p,Cm),Fp(Gp(f),p,wm);let h=t.intersectsBox(Cm),g=t.intersectsBox(wm);C=h&&km(d,l,r,n,i,o,a,c,s+1,t,!u)||g&&km(d,f,r,n,i,o,a,c,s+1,t,!u),Sm.releasePrimitive(t)}}else if(v){if(x)C=km(e,f,n,r,i,a,o,s,c+1,l,u);else{let t=Sm.getPrimitive();t.copy(Em).applyMatrix4(n);let l=Hp(e),d=Up(e,m);Fp(Gp(l),p,Cm),Fp(Gp(d),p,wm);let h=t.intersectsBox(Cm),g=t.intersectsBox(wm);C=h&&km(f,l,r,n,i,o,a,c,s+1,t,!u)||g&&km(f,d,r,n,i,o,a,c,s+1,t,!u),Sm.releasePrimitive(t)}}}return C}var Am=new class{constructor(){let e=null,t=null,n=null,r=!1;this.root=null,this.buffer=null,this.uint32Array=null,this.uint16Array=null,this.setBVH=(i,a)=>{if(r)throw Error(`BVHTraversalHelper: cannot call setBVH during an active traversal.`);this.root=a,this.buffer=e=i._roots[a],this.uint16Array=n=new Uint16Array(e),this.uint32Array=t=new Uint32Array(e)},this.reset=()=>{this.root=null,this.buffer=e=null,this.uint16Array=n=null,this.uint32Array=t=null},this.getRangeStart=e=>{let r=e*2;for(;!zp(r,n);)e=Hp(e),r=e*2;return Bp(e,t)},this.getRangeEnd=e=>{let r=e*2;for(;!zp(r,n);)e=Up(e,t),r=e*2;return Bp(e,t)+Vp(r,n)};let i=(e,r,a)=>{let o=zp(r*2,n);if(!e(a,o,r)&&!o){let n=Hp(r),o=Up(r,t);i(e,n,a+1),i(e,o,a+1)}};this.traverseBuffer=e=>{if(r)throw Error(`BVHTraversalHelper: cannot start a traversal during an active traversal.`);r=!0;try{i(e,0,0)}finally{r=!1}},this.traverse=r=>{this.traverseBuffer((i,a,o)=>{if(a){let s=o*2,c=t[o+6],l=n[s+14];return r(i,a,new Float32Array(e,o*4,6),c,l)}{let n=Wp(o,t);return r(i,a,new Float32Array(e,o*4,6),n)}})}}},jm=new gs,Mm=new Float32Array(6),Nm=class{constructor(){this._roots=null,this.primitiveBuffer=null,this.primitiveBufferStride=null}init(e){e={...Pp,...e},`maxLeafSize`in e&&(console.warn(`BVH: "maxLeafSize" option has been deprecated. Use "targetLeafSize", instead.`),e={...e,targetLeafSize:e.maxLeafSize}),dm(this,e)}getRootRanges(){throw Error(`BVH: getRootRanges() not implemented`)}writePrimitiveBounds(){throw Error(`BVH: writePrimitiveBounds() not implemented`)}writePrimitiveRangeBounds(e,t,n,r){let i=1/0,a=1/0,o=1/0,s=-1/0,c=-1/0,l=-1/0;for(let n=e,r=e+t;n<r;n++){this.writePrimitiveBounds(n,Mm,0);let[e,t,r,u,d,f]=Mm;e<i&&(i=e),u>s&&(s=u),t<a&&(a=t),d>c&&(c=d),r<o&&(o=r),f>l&&(l=f)}return n[r+0]=i,n[r+1]=a,n[r+2]=o,n[r+3]=s,n[r+4]=c,n[r+5]=l,n}computePrimitiveBounds(e,t,n){let r=n.offset||0;for(let i=e,a=e+t;i<a;i++){this.writePrimitiveBounds(i,Mm,0);let[e,t,a,o,s,c]=Mm,l=(e+o)/2,u=(t+s)/2,d=(a+c)/2,f=(o-e)/2,p=(s-t)/2,m=(c-a)/2,h=(i-r)*6;n[h+0]=l,n[h+1]=f+(Math.abs(l)+f)*Mp,n[h+2]=u,n[h+3]=p+(Math.abs(u)+p)*Mp,n[h+4]=d,n[h+5]=m+(Math.abs(d)+m)*Mp}return n}shiftPrimitiveOffsets(e){let t=this._indirectBuffer;if(t)for(let n=0,r=t.length;n<r;n++)t[n]+=e;else{let t=this._roots;for(let n=0;n<t.length;n++){let r=t[n],i=new Uint32Array(r),a=new Uint16Array(r),o=r.byteLength/32;for(let t=0;t<o;t++){let n=8*t;zp(2*n,a)&&(i[n+6]+=e)}}}}traverse(e,t=0){Am.setBVH(this,t),Am.traverse(e),Am.reset()}refit(){let e=this._roots;for(let t=0,n=e.length;t<n;t++){let n=e[t],r=new Uint32Array(n),i=new Uint16Array(n),a=new Float32Array(n),o=n.byteLength/32;for(let e=o-1;e>=0;e--){let t=e*8,n=t*2;if(zp(n,i)){let e=Bp(t,r),o=Vp(n,i);this.writePrimitiveRangeBounds(e,o,Mm,0),a.set(Mm,t)}else{let e=Hp(t),n=Up(t,r);for(let r=0;r<3;r++){let i=a[e+r],o=a[e+r+3],s=a[n+r],c=a[n+r+3];a[t+r]=i<s?i:s,a[t+r+3]=o>c?o:c}}}}}getBoundingBox(e){return e.makeEmpty(),this._roots.forEach(t=>{Fp(0,new Float32Array(t),jm),e.union(jm)}),e}shapecast(e){let{boundsTraverseOrder:t,intersectsBounds:n,intersectsRange:r,intersectsPrimitive:i,scratchPrimitive:a,iterate:o}=e;if(r&&i){let e=r;r=(t,n,r,s,c)=>e(t,n,r,s,c)?!0:o(t,n,this,i,r,s,a)}else r||=i?(e,t,n,r)=>o(e,t,this,i,n,r,a):(e,t,n)=>n;let s=!1,c=0,l=this._roots;for(let e=0,i=l.length;e<i;e++){let i=l[e];if(s=vm(this,e,n,r,t,c),s)break;c+=i.byteLength/32}return s}bvhcast(e,t,n){let{intersectsRanges:r}=n;return Om(this,e,t,r)}};function Pm(){return typeof SharedArrayBuffer<`u`}function Fm(e){return e.index?e.index.count:e.attributes.position.count}function Im(e){return Fm(e)/3}function Lm(e,t=ArrayBuffer){return e>65535?new Uint32Array(new t(4*e)):new Uint16Array(new t(2*e))}function Rm(e,t){if(!e.index){let n=e.attributes.position.count,r=Lm(n,t.useSharedArrayBuffer?SharedArrayBuffer:ArrayBuffer);e.setIndex(new Ps(r,1));for(let e=0;e<n;e++)r[e]=e}}function zm(e,t,n){let r=Fm(e)/n,i=t||e.drawRange,a=i.start/n,o=(i.start+i.count)/n,s=Math.max(0,a),c=Math.min(r,o)-s;return{offset:Math.floor(s),count:Math.floor(c)}}function Bm(e,t){return e.groups.map(e=>({offset:e.start/t,count:e.count/t}))}function Vm(e,t,n){let r=zm(e,t,n),i=Bm(e,n);if(!i.length)return[r];let a=[],o=r.offset,s=r.offset+r.count,c=Fm(e)/n,l=[];for(let e of i){let{offset:t,count:n}=e,r=t,i=t+(isFinite(n)?n:c-t);r<s&&i>o&&(l.push({pos:Math.max(o,r),isStart:!0}),l.push({pos:Math.min(s,i),isStart:!1}))}l.sort((e,t)=>e.pos===t.pos?e.type===`end`?-1:1:e.pos-t.pos);let u=0,d=null;for(let e of l){let t=e.pos;u!==0&&t!==d&&a.push({offset:d,count:t-d}),u+=e.isStart?1:-1,d=t}return a}function Hm(e,t){let n=e[e.length-1],r=n.offset+n.count>2**16,i=e.reduce((e,t)=>e+t.count,0),a=r?4:2,o=t?new SharedArrayBuffer(i*a):new ArrayBuffer(i*a),s=r?new Uint32Array(o):new Uint16Array(o),c=0;for(let t=0;t<e.length;t++){let{offset:n,count:r}=e[t];for(let e=0;e<r;e++)s[c+e]=n+e;c+=r}return s}var Um=class extends Nm{get indirect(){return!!this._indirectBuffer}get primitiveStride(){return null}get primitiveBufferStride(){return this.indirect?1:this.primitiveStride}set primitiveBufferStride(e){}get primitiveBuffer(){return this.indirect?this._indirectBuffer:this.geometry.index.array}set primitiveBuffer(e){}constructor(e,t={}){if(!e.isBufferGeometry)throw Error(`BVH: Only BufferGeometries are supported.`);if(e.index&&e.index.isInterleavedBufferAttribute)throw Error(`BVH: InterleavedBufferAttribute is not supported for the index attribute.`);if(t.useSharedArrayBuffer&&!Pm())throw Error(`BVH: SharedArrayBuffer is not available.`);super(),this.geometry=e,this.resolvePrimitiveIndex=t.indirect?e=>this._indirectBuffer[e]:e=>e,this.primitiveBuffer=null,this.primitiveBufferStride=null,this._indirectBuffer=null,t={...Pp,...t},t[Np]||this.init(t)}init(e){let{geometry:t,primitiveStride:n}=this;if(e.indirect){let r=Hm(Vm(t,e.range,n),e.useSharedArrayBuffer);this._indirectBuffer=r}else Rm(t,e);super.init(e),!t.boundingBox&&e.setBoundingBox&&(t.boundingBox=this.getBoundingBox(new gs))}getRootRanges(e){return this.indirect?[{offset:0,count:this._indirectBuffer.length}]:Vm(this.geometry,e,this.primitiveStride)}raycastObject3D(){throw Error(`BVH: raycastObject3D() not implemented`)}},Wm=class{constructor(){this.min=1/0,this.max=-1/0}setFromPointsField(e,t){let n=1/0,r=-1/0;for(let i=0,a=e.length;i<a;i++){let a=e[i][t];n=a<n?a:n,r=a>r?a:r}this.min=n,this.max=r}setFromPoints(e,t){let n=1/0,r=-1/0;for(let i=0,a=t.length;i<a;i++){let a=t[i],o=e.dot(a);n=o<n?o:n,r=o>r?o:r}this.min=n,this.max=r}isSeparated(e){return this.min>e.max||e.min>this.max}};Wm.prototype.setFromBox=(function(){let e=new X;return function(t,n){let r=n.min,i=n.max,a=1/0,o=-1/0;for(let n=0;n<=1;n++)for(let s=0;s<=1;s++)for(let c=0;c<=1;c++){e.x=r.x*n+i.x*(1-n),e.y=r.y*s+i.y*(1-s),e.z=r.z*c+i.z*(1-c);let l=t.dot(e);a=Math.min(l,a),o=Math.max(l,o)}this.min=a,this.max=o}})();var Gm=(function(){let e=new X,t=new X,n=new X;return function(r,i,a){let o=r.start,s=e,c=i.start,l=t;n.subVectors(o,c),e.subVectors(r.end,r.start),t.subVectors(i.end,i.start);let u=n.dot(l),d=l.dot(s),f=l.dot(l),p=n.dot(s),m=s.dot(s)*f-d*d,h,g;h=m===0?0:(u*d-p*f)/m,g=(u+h*d)/f,a.x=h,a.y=g}})(),Km=(function(){let e=new Y,t=new X,n=new X;return function(r,i,a,o){Gm(r,i,e);let s=e.x,c=e.y;if(s>=0&&s<=1&&c>=0&&c<=1)r.at(s,a),i.at(c,o);else if(s>=0&&s<=1)c<0?i.at(0,o):i.at(1,o),r.closestPointToPoint(o,!0,a);else if(c>=0&&c<=1)s<0?r.at(0,a):r.at(1,a),i.closestPointToPoint(a,!0,o);else{let e;e=s<0?r.start:r.end;let l;l=c<0?i.start:i.end;let u=t,d=n;if(r.closestPointToPoint(l,!0,t),i.closestPointToPoint(e,!0,n),u.distanceToSquared(l)<=d.distanceToSquared(e)){a.copy(u),o.copy(l);return}a.copy(e),o.copy(d);return}}})(),qm=(function(){let e=new X,t=new X,n=new $s,r=new hu;return function(i,a){let{radius:o,center:s}=i,{a:c,b:l,c:u}=a;if(r.start=c,r.end=l,r.closestPointToPoint(s,!0,e).distanceTo(s)<=o||(r.start=c,r.end=u,r.closestPointToPoint(s,!0,e).distanceTo(s)<=o)||(r.start=l,r.end=u,r.closestPointToPoint(s,!0,e).distanceTo(s)<=o))return!0;let d=a.getPlane(n);if(Math.abs(d.distanceToPoint(s))<=o){let e=d.projectPoint(s,t);if(a.containsPoint(e))return!0}return!1}})(),Jm=[`x`,`y`,`z`],Ym=1e-15,Xm=Ym*Ym;function Zm(e){return Math.abs(e)<Ym}var Qm=class extends hs{constructor(...e){super(...e),this.isExtendedTriangle=!0,this.satAxes=[,,,,].fill().map(()=>new X),this.satBounds=[,,,,].fill().map(()=>new Wm),this.points=[this.a,this.b,this.c],this.plane=new $s,this.isDegenerateIntoSegment=!1,this.isDegenerateIntoPoint=!1,this.degenerateSegment=new hu,this.needsUpdate=!0}intersectsSphere(e){return qm(e,this)}update(){let e=this.a,t=this.b,n=this.c,r=this.points,i=this.satAxes,a=this.satBounds,o=i[0],s=a[0];this.getNormal(o),s.setFromPoints(o,r);let c=i[1],l=a[1];c.subVectors(e,t),l.setFromPoints(c,r);let u=i[2],d=a[2];u.subVectors(t,n),d.setFromPoints(u,r);let f=i[3],p=a[3];f.subVectors(n,e),p.setFromPoints(f,r);let m=c.length(),h=u.length(),g=f.length();this.isDegenerateIntoPoint=!1,this.isDegenerateIntoSegment=!1,m<Ym?h<Ym||g<Ym?this.isDegenerateIntoPoint=!0:(this.isDegenerateIntoSegment=!0,this.degenerateSegment.start.copy(e),this.degenerateSegment.end.copy(n)):h<Ym?g<Ym?this.isDegenerateIntoPoint=!0:(this.isDegenerateIntoSegment=!0,this.degenerateSegment.start.copy(t),this.degenerateSegment.end.copy(e)):g<Ym&&(this.isDegenerateIntoSegment=!0,this.degenerateSegment.start.copy(n),this.degenerateSegment.end.copy(t)),this.plane.setFromNormalAndCoplanarPoint(o,e),this.needsUpdate=!1}};Qm.prototype.closestPointToSegment=(function(){let e=new X,t=new X,n=new hu;return function(r,i=null,a=null){this.needsUpdate&&this.update();let{start:o,end:s}=r,c=this.points,l,u=1/0;if(this.plane.distanceToPoint(o)*this.plane.distanceToPoint(s)<0&&this.plane.intersectLine(r,e)!==null&&this.containsPoint(e))return i&&i.copy(e),a&&a.copy(e),0;for(let o=0;o<3;o++){let s=(o+1)%3;n.start.copy(c[o]),n.end.copy(c[s]),Km(n,r,e,t),l=e.distanceToSquared(t),l<u&&(u=l,i&&i.copy(e),a&&a.copy(t))}return this.closestPointToPoint(o,e),l=o.distanceToSquared(e),l<u&&(u=l,i&&i.copy(e),a&&a.copy(o)),this.closestPointToPoint(s,e),l=s.distanceToSquared(e),l<u&&(u=l,i&&i.copy(e),a&&a.copy(s)),Math.sqrt(u)}})(),Qm.prototype.intersectsTriangle=(function(){let e=new Qm,t=new Wm,n=new Wm,r=new X,i=new X,a=new X,o=new X,s=new hu,c=new hu,l=new X,u=new Y,d=new Y;function f(e,i,a,s){let c=r;!e.isDegenerateIntoPoint&&!e.isDegenerateIntoSegment?c.copy(e.plane.normal):c.copy(i.plane.normal);let l=e.satBounds,u=e.satAxes;for(let r=1;r<4;r++){let a=l[r],s=u[r];if(t.setFromPoints(s,i.points),a.isSeparated(t)||(o.copy(c).cross(s),t.setFromPoints(o,e.points),n.setFromPoints(o,i.points),t.isSeparated(n)))return!1}let d=i.satBounds,f=i.satAxes;for(let r=1;r<4;r++){let a=d[r],s=f[r];if(t.setFromPoints(s,e.points),a.isSeparated(t)||(o.crossVectors(c,s),t.setFromPoints(o,e.points),n.setFromPoints(o,i.points),t.isSeparated(n)))return!1}return a&&(s||console.warn(`ExtendedTriangle.intersectsTriangle: Triangles are coplanar which does not support an output edge. Setting edge to 0, 0, 0.`),a.start.set(0,0,0),a.end.set(0,0,0)),!0}function p(e,t,n,r,i,a,o,s,c,l,u){let d=o/(o-s);l.x=r+(i-r)*d,u.start.subVectors(t,e).multiplyScalar(d).add(e),d=o/(o-c),l.y=r+(a-r)*d,u.end.subVectors(n,e).multiplyScalar(d).add(e)}function m(e,t,n,r,i,a,o,s,c,l,u){if(i>0)p(e.c,e.a,e.b,r,t,n,c,o,s,l,u);else if(a>0)p(e.b,e.a,e.c,n,t,r,s,o,c,l,u);else if(s*c>0||o!=0)p(e.a,e.b,e.c,t,n,r,o,s,c,l,u);else if(s!=0)p(e.b,e.a,e.c,n,t,r,s,o,c,l,u);else if(c!=0)p(e.c,e.a,e.b,r,t,n,c,o,s,l,u);else return!0;return!1}function h(e,t,n,i){let a=t.degenerateSegment,o=e.plane.distanceToPoint(a.start),s=e.plane.distanceToPoint(a.end);return Zm(o)?Zm(s)?f(e,t,n,i):(n&&(n.start.copy(a.start),n.end.copy(a.start)),e.containsPoint(a.start)):Zm(s)?(n&&(n.start.copy(a.end),n.end.copy(a.end)),e.containsPoint(a.end)):e.plane.intersectLine(a,r)!=null&&(n&&(n.start.copy(r),n.end.copy(r)),e.containsPoint(r))}function g(e,t,n){let r=t.a;return Zm(e.plane.distanceToPoint(r))&&e.containsPoint(r)?(n&&(n.start.copy(r),n.end.copy(r)),!0):!1}function _(e,t,n){let i=e.degenerateSegment,a=t.a;return i.closestPointToPoint(a,!0,r),a.distanceToSquared(r)<Xm&&(n&&(n.start.copy(a),n.end.copy(a)),!0)}function v(e,t,n,o){if(e.isDegenerateIntoSegment){if(t.isDegenerateIntoSegment){let o=e.degenerateSegment,s=t.degenerateSegment,c=i,l=a;o.delta(c),s.delta(l);let u=r.subVectors(s.start,o.start),d=c.x*l.y-c.y*l.x;if(Zm(d))return!1;let f=(u.x*l.y-u.y*l.x)/d,p=-(c.x*u.y-c.y*u.x)/d;return f<0||f>1||p<0||p>1?!1:Zm(o.start.z+c.z*f-(s.start.z+l.z*p))?(n&&(n.start.copy(o.start).addScaledVector(c,f),n.end.copy(o.start).addScaledVector(c,f)),!0):!1}return t.isDegenerateIntoPoint?_(e,t,n):h(t,e,n,o)}if(e.isDegenerateIntoPoint)return t.isDegenerateIntoPoint?t.a.distanceToSquared(e.a)<Xm&&(n&&(n.start.copy(e.a),n.end.copy(e.a)),!0):t.isDegenerateIntoSegment?_(t,e,n):g(t,e,n);if(t.isDegenerateIntoPoint)return g(e,t,n);if(t.isDegenerateIntoSegment)return h(e,t,n,o)}return function(t,n=null,r=!1){this.needsUpdate&&this.update(),t.isExtendedTriangle?t.needsUpdate&&t.update():(e.copy(t),e.update(),t=e);let o=v(this,t,n,r);if(o!==void 0)return o;let p=this.plane,h=t.plane,g=h.distanceToPoint(this.a),_=h.distanceToPoint(this.b),y=h.distanceToPoint(this.c);Zm(g)&&(g=0),Zm(_)&&(_=0),Zm(y)&&(y=0);let b=g*_,x=g*y;if(b>0&&x>0)return!1;let S=p.distanceToPoint(t.a),C=p.distanceToPoint(t.b),w=p.distanceToPoint(t.c);Zm(S)&&(S=0),Zm(C)&&(C=0),Zm(w)&&(w=0);let T=S*C,E=S*w;if(T>0&&E>0)return!1;i.copy(p.normal),a.copy(h.normal);let D=i.cross(a),O=0,k=Math.abs(D.x),A=Math.abs(D.y);A>k&&(k=A,O=1),Math.abs(D.z)>k&&(O=2);let j=Jm[O],ee=this.a[j],M=this.b[j],N=this.c[j],te=t.a[j],ne=t.b[j],re=t.c[j];if(m(this,ee,M,N,b,x,g,_,y,u,s)||m(t,te,ne,re,T,E,S,C,w,d,c))return f(this,t,n,r);if(u.y<u.x){let e=u.y;u.y=u.x,u.x=e,l.copy(s.start),s.start.copy(s.end),s.end.copy(l)}if(d.y<d.x){let e=d.y;d.y=d.x,d.x=e,l.copy(c.start),c.start.copy(c.end),c.end.copy(l)}return u.y<d.x||d.y<u.x?!1:(n&&(d.x>u.x?n.start.copy(c.start):n.start.copy(s.start),d.y<u.y?n.end.copy(c.end):n.end.copy(s.end)),!0)}})(),Qm.prototype.distanceToPoint=(function(){let e=new X;return function(t){return this.closestPointToPoint(t,e),t.distanceTo(e)}})(),Qm.prototype.distanceToTriangle=(function(){let e=new X,t=new X,n=[`a`,`b`,`c`],r=new hu,i=new hu;return function(a,o=null,s=null){let c=o||s?r:null;if(this.intersectsTriangle(a,c,!0))return(o||s)&&(o&&c.getCenter(o),s&&c.getCenter(s)),0;let l=1/0;for(let t=0;t<3;t++){let r,i=n[t],c=a[i];this.closestPointToPoint(c,e),r=c.distanceToSquared(e),r<l&&(l=r,o&&o.copy(e),s&&s.copy(c));let u=this[i];a.closestPointToPoint(u,e),r=u.distanceToSquared(e),r<l&&(l=r,o&&o.copy(u),s&&s.copy(e))}for(let c=0;c<3;c++){let u=n[c],d=n[(c+1)%3];r.set(this[u],this[d]);for(let c=0;c<3;c++){let u=n[c],d=n[(c+1)%3];i.set(a[u],a[d]),Km(r,i,e,t);let f=e.distanceToSquared(t);f<l&&(l=f,o&&o.copy(e),s&&s.copy(t))}}return Math.sqrt(l)}})();var $m=class{constructor(e,t,n){this.isOrientedBox=!0,this.min=new X,this.max=new X,this.matrix=new vo,this.invMatrix=new vo,this.points=Array(8).fill().map(()=>new X),this.satAxes=[,,,].fill().map(()=>new X),this.satBounds=[,,,].fill().map(()=>new Wm),this.alignedSatBounds=[,,,].fill().map(()=>new Wm),this.needsUpdate=!1,e&&this.min.copy(e),t&&this.max.copy(t),n&&this.matrix.copy(n)}set(e,t,n){this.min.copy(e),this.max.copy(t),this.matrix.copy(n),this.needsUpdate=!0}copy(e){this.min.copy(e.min),this.max.copy(e.max),this.matrix.copy(e.matrix),this.needsUpdate=!0}};$m.prototype.update=(function(){return function(){let e=this.matrix,t=this.min,n=this.max,r=this.points;for(let i=0;i<=1;i++)for(let a=0;a<=1;a++)for(let o=0;o<=1;o++){let s=r[1*i|2*a|4*o];s.x=i?n.x:t.x,s.y=a?n.y:t.y,s.z=o?n.z:t.z,s.applyMatrix4(e)}let i=this.satBounds,a=this.satAxes,o=r[0];for(let e=0;e<3;e++){let t=a[e],n=i[e],s=r[1<<e];t.subVectors(o,s),n.setFromPoints(t,r)}let s=this.alignedSatBounds;s[0].setFromPointsField(r,`x`),s[1].setFromPointsField(r,`y`),s[2].setFromPointsField(r,`z`),this.invMatrix.copy(this.matrix).invert(),this.needsUpdate=!1}})(),$m.prototype.intersectsBox=(function(){let e=new Wm;return function(t){this.needsUpdate&&this.update();let n=t.min,r=t.max,i=this.satBounds,a=this.satAxes,o=this.alignedSatBounds;if(e.min=n.x,e.max=r.x,o[0].isSeparated(e)||(e.min=n.y,e.max=r.y,o[1].isSeparated(e))||(e.min=n.z,e.max=r.z,o[2].isSeparated(e)))return!1;for(let n=0;n<3;n++){let r=a[n],o=i[n];if(e.setFromBox(r,t),o.isSeparated(e))return!1}return!0}})(),$m.prototype.intersectsTriangle=(function(){let e=new Qm,t=[,,,],n=new Wm,r=new Wm,i=new X;return function(a){this.needsUpdate&&this.update(),a.isExtendedTriangle?a.needsUpdate&&a.update():(e.copy(a),e.update(),a=e);let o=this.satBounds,s=this.satAxes;t[0]=a.a,t[1]=a.b,t[2]=a.c;for(let e=0;e<3;e++){let r=o[e],i=s[e];if(n.setFromPoints(i,t),r.isSeparated(n))return!1}let c=a.satBounds,l=a.satAxes,u=this.points;for(let e=0;e<3;e++){let t=c[e],r=l[e];if(n.setFromPoints(r,u),t.isSeparated(n))return!1}for(let e=0;e<3;e++){let a=s[e];for(let e=0;e<4;e++){let o=l[e];if(i.crossVectors(a,o),n.setFromPoints(i,t),r.setFromPoints(i,u),n.isSeparated(r))return!1}}return!0}})(),$m.prototype.closestPointToPoint=(function(){return function(e,t){return this.needsUpdate&&this.update(),t.copy(e).applyMatrix4(this.invMatrix).clamp(this.min,this.max).applyMatrix4(this.matrix),t}})(),$m.prototype.distanceToPoint=(function(){let e=new X;return function(t){return this.closestPointToPoint(t,e),t.distanceTo(e)}})(),$m.prototype.distanceToBox=(function(){let e=[`x`,`y`,`z`],t=Array(12).fill().map(()=>new hu),n=Array(12).fill().map(()=>new hu),r=new X,i=new X;return function(a,o=0,s=null,c=null){if(this.needsUpdate&&this.update(),this.intersectsBox(a))return(s||c)&&(a.getCenter(i),this.closestPointToPoint(i,r),a.closestPointToPoint(r,i),s&&s.copy(r),c&&c.copy(i)),0;let l=o*o,u=a.min,d=a.max,f=this.points,p=1/0;for(let e=0;e<8;e++){let t=f[e];i.copy(t).clamp(u,d);let n=t.distanceToSquared(i);if(n<p&&(p=n,s&&s.copy(t),c&&c.copy(i),n<l))return Math.sqrt(n)}let m=0;for(let r=0;r<3;r++)for(let i=0;i<=1;i++)for(let a=0;a<=1;a++){let o=(r+1)%3,s=(r+2)%3,c=i<<o|a<<s,l=1<<r|i<<o|a<<s,p=f[c],h=f[l];t[m].set(p,h);let g=e[r],_=e[o],v=e[s],y=n[m],b=y.start,x=y.end;b[g]=u[g],b[_]=i?u[_]:d[_],b[v]=a?u[v]:d[v],x[g]=d[g],x[_]=i?u[_]:d[_],x[v]=a?u[v]:d[v],m++}for(let e=0;e<=1;e++)for(let t=0;t<=1;t++)for(let n=0;n<=1;n++){i.x=e?d.x:u.x,i.y=t?d.y:u.y,i.z=n?d.z:u.z,this.closestPointToPoint(i,r);let a=i.distanceToSquared(r);if(a<p&&(p=a,s&&s.copy(r),c&&c.copy(i),a<l))return Math.sqrt(a)}for(let e=0;e<12;e++){let a=t[e];for(let e=0;e<12;e++){let t=n[e];Km(a,t,r,i);let o=r.distanceToSquared(i);if(o<p&&(p=o,s&&s.copy(r),c&&c.copy(i),o<l))return Math.sqrt(o)}}return Math.sqrt(p)}})();var eh=new class extends fm{constructor(){super(()=>new Qm)}},th=new X,nh=new X;function rh(e,t,n={},r=0,i=1/0){let a=r*r,o=i*i,s=1/0,c=null;if(e.shapecast({boundsTraverseOrder:e=>(th.copy(t).clamp(e.min,e.max),th.distanceToSquared(t)),intersectsBounds:(e,t,n)=>n<s&&n<o,intersectsTriangle:(e,n)=>{e.closestPointToPoint(t,th);let r=t.distanceToSquared(th);return r<s&&(nh.copy(th),s=r,c=n),r<a}}),s===1/0)return null;let l=Math.sqrt(s);return n.point?n.point.copy(nh):n.point=nh.clone(),n.distance=l,n.faceIndex=c,n}var ih=!0,ah=new X,oh=new X,sh=new X,ch=new Y,lh=new Y,uh=new Y,dh=new X,fh=new X,ph=new X,mh=new X;function hh(e,t,n,r,i,a,o,s){let c;if(c=a===1?e.intersectTriangle(r,n,t,!0,i):e.intersectTriangle(t,n,r,a!==2,i),c===null)return null;let l=e.origin.distanceTo(i);return l<o||l>s?null:{distance:l,point:i.clone()}}function gh(e,t,n,r,i,a,o,s,c,l,u){ah.fromBufferAttribute(t,a),oh.fromBufferAttribute(t,o),sh.fromBufferAttribute(t,s);let d=hh(e,ah,oh,sh,mh,c,l,u);if(d){if(r){ch.fromBufferAttribute(r,a),lh.fromBufferAttribute(r,o),uh.fromBufferAttribute(r,s),d.uv=new Y;let e=hs.getInterpolation(mh,ah,oh,sh,ch,lh,uh,d.uv);ih||(d.uv=e)}if(i){ch.fromBufferAttribute(i,a),lh.fromBufferAttribute(i,o),uh.fromBufferAttribute(i,s),d.uv1=new Y;let e=hs.getInterpolation(mh,ah,oh,sh,ch,lh,uh,d.uv1);ih||(d.uv1=e)}if(n){dh.fromBufferAttribute(n,a),fh.fromBufferAttribute(n,o),ph.fromBufferAttribute(n,s),d.normal=new X;let t=hs.getInterpolation(mh,ah,oh,sh,dh,fh,ph,d.normal);d.normal.dot(e.direction)>0&&d.normal.multiplyScalar(-1),ih||(d.normal=t)}let t={a,b:o,c:s,normal:new X,materialIndex:0};if(hs.getNormal(ah,oh,sh,t.normal),d.face=t,d.faceIndex=a,ih){let e=new X;hs.getBarycoord(mh,ah,oh,sh,e),d.barycoord=e}}return d}function _h(e){return e&&e.isMaterial?e.side:e}function vh(e,t,n,r,i,a,o){let s=r*3,c=s+0,l=s+1,u=s+2,{index:d,groups:f}=e;e.index&&(c=d.getX(c),l=d.getX(l),u=d.getX(u));let{position:p,normal:m,uv:h,uv1:g}=e.attributes;if(Array.isArray(t)){let e=r*3;for(let s=0,d=f.length;s<d;s++){let{start:d,count:_,materialIndex:v}=f[s];if(e>=d&&e<d+_){let e=_h(t[v]),s=gh(n,p,m,h,g,c,l,u,e,a,o);if(s){if(s.faceIndex=r,s.face.materialIndex=v,i)i.push(s);else return s}}}}else{let e=_h(t),s=gh(n,p,m,h,g,c,l,u,e,a,o);if(s){if(s.faceIndex=r,s.face.materialIndex=0,i)i.push(s);else return s}}return null}function yh(e,t,n,r){let i=e.a,a=e.b,o=e.c,s=t,c=t+1,l=t+2;n&&(s=n.getX(s),c=n.getX(c),l=n.getX(l)),i.x=r.getX(s),i.y=r.getY(s),i.z=r.getZ(s),a.x=r.getX(c),a.y=r.getY(c),a.z=r.getZ(c),o.x=r.getX(l),o.y=r.getY(l),o.z=r.getZ(l)}function bh(e,t,n,r,i,a,o,s){let{geometry:c,_indirectBuffer:l}=e;for(let e=r,l=r+i;e<l;e++)vh(c,t,n,e,a,o,s)}function xh(e,t,n,r,i,a,o){let{geometry:s,_indirectBuffer:c}=e,l=1/0,u=null;for(let e=r,c=r+i;e<c;e++){let r;r=vh(s,t,n,e,null,a,o),r&&r.distance<l&&(u=r,l=r.distance)}return u}function Sh(e,t,n,r,i,a,o){let{geometry:s}=n,{index:c}=s,l=s.attributes.position;for(let n=e,s=t+e;n<s;n++){let e;if(e=n,yh(o,e*3,c,l),o.needsUpdate=!0,r(o,e,i,a))return!0}return!1}function Ch(e,t=null){t&&Array.isArray(t)&&(t=new Set(t));let n=e.geometry,r=n.index?n.index.array:null,i=n.attributes.position,a,o,s,c,l=0,u=e._roots;for(let e=0,t=u.length;e<t;e++)a=u[e],o=new Uint32Array(a),s=new Uint16Array(a),c=new Float32Array(a),d(0,l),l+=a.byteLength;function d(e,n,a=!1){let l=e*2;if(zp(l,s)){let t=Bp(e,o),n=Vp(l,s),a=1/0,u=1/0,d=1/0,f=-1/0,p=-1/0,m=-1/0;for(let e=3*t,o=3*(t+n);e<o;e++){let t=r[e],n=i.getX(t),o=i.getY(t),s=i.getZ(t);n<a&&(a=n),n>f&&(f=n),o<u&&(u=o),o>p&&(p=o),s<d&&(d=s),s>m&&(m=s)}return c[e+0]!==a||c[e+1]!==u||c[e+2]!==d||c[e+3]!==f||c[e+4]!==p||c[e+5]!==m?(c[e+0]=a,c[e+1]=u,c[e+2]=d,c[e+3]=f,c[e+4]=p,c[e+5]=m,!0):!1}{let r=Hp(e),i=Up(e,o),s=a,l=!1,u=!1;if(t){if(!s){let e=r/8+n/32,a=i/8+n/32;l=t.has(e),u=t.has(a),s=!l&&!u}}else l=!0,u=!0;let f=s||l,p=s||u,m=!1;f&&(m=d(r,n,s));let h=!1;p&&(h=d(i,n,s));let g=m||h;if(g)for(let t=0;t<3;t++){let n=r+t,a=i+t,o=c[n],s=c[n+3],l=c[a],u=c[a+3];c[e+t]=o<l?o:l,c[e+t+3]=s>u?s:u}return g}}}function wh(e,t,n,r,i){let a,o,s,c,l,u,d=1/n.direction.x,f=1/n.direction.y,p=1/n.direction.z,m=n.origin.x,h=n.origin.y,g=n.origin.z,_=t[e],v=t[e+3],y=t[e+1],b=t[e+3+1],x=t[e+2],S=t[e+3+2];return d>=0?(a=(_-m)*d,o=(v-m)*d):(a=(v-m)*d,o=(_-m)*d),f>=0?(s=(y-h)*f,c=(b-h)*f):(s=(b-h)*f,c=(y-h)*f),a>c||s>o||((s>a||isNaN(a))&&(a=s),(c<o||isNaN(o))&&(o=c),p>=0?(l=(x-g)*p,u=(S-g)*p):(l=(S-g)*p,u=(x-g)*p),a>u||l>o)?!1:((l>a||a!==a)&&(a=l),(u<o||o!==o)&&(o=u),a<=i&&o>=r)}function Th(e,t,n,r,i,a,o,s){let{geometry:c,_indirectBuffer:l}=e;for(let e=r,u=r+i;e<u;e++)vh(c,t,n,l?l[e]:e,a,o,s)}function Eh(e,t,n,r,i,a,o){let{geometry:s,_indirectBuffer:c}=e,l=1/0,u=null;for(let e=r,d=r+i;e<d;e++){let r;r=vh(s,t,n,c?c[e]:e,null,a,o),r&&r.distance<l&&(u=r,l=r.distance)}return u}function Dh(e,t,n,r,i,a,o){let{geometry:s}=n,{index:c}=s,l=s.attributes.position;for(let s=e,u=t+e;s<u;s++){let e;if(e=n.resolveTriangleIndex(s),yh(o,e*3,c,l),o.needsUpdate=!0,r(o,e,i,a))return!0}return!1}function Oh(e,t,n,r,i,a,o){pm.setBuffer(e._roots[t]),wh(0,pm.float32Array,r,a,o)&&kh(0,e,n,r,i,a,o),pm.clearBuffer()}function kh(e,t,n,r,i,a,o){let{float32Array:s,uint16Array:c,uint32Array:l}=pm,u=e*2;if(zp(u,c))bh(t,n,r,Bp(e,l),Vp(u,c),i,a,o);else{let c=Hp(e);wh(c,s,r,a,o)&&kh(c,t,n,r,i,a,o);let u=Up(e,l);wh(u,s,r,a,o)&&kh(u,t,n,r,i,a,o)}}var Ah=[`x`,`y`,`z`];function jh(e,t,n,r,i,a){pm.setBuffer(e._roots[t]);let o=null;return wh(0,pm.float32Array,r,i,a)&&(o=Mh(0,e,n,r,i,a)),pm.clearBuffer(),o}function Mh(e,t,n,r,i,a){let{float32Array:o,uint16Array:s,uint32Array:c}=pm,l=e*2;if(zp(l,s))return xh(t,n,r,Bp(e,c),Vp(l,s),i,a);{let s=Wp(e,c),l=Ah[s],u=r.direction[l]>=0,d,f;u?(d=Hp(e),f=Up(e,c)):(d=Up(e,c),f=Hp(e));let p=wh(d,o,r,i,a)?Mh(d,t,n,r,i,a):null;if(p){let e=p.point[l];if(u?e<=o[f+s]:e>=o[f+s+3])return p}let m=wh(f,o,r,i,a)?Mh(f,t,n,r,i,a):null;return p&&m?p.distance<=m.distance?p:m:p||m||null}}var Nh=new gs,Ph=new Qm,Fh=new Qm,Ih=new vo,Lh=new $m,Rh=new $m;function zh(e,t,n,r){pm.setBuffer(e._roots[t]);let i=Bh(0,e,n,r);return pm.clearBuffer(),i}function Bh(e,t,n,r,i=null){let{float32Array:a,uint16Array:o,uint32Array:s}=pm,c=e*2;if(i===null&&(n.boundingBox||n.computeBoundingBox(),Lh.set(n.boundingBox.min,n.boundingBox.max,r),i=Lh),zp(c,o)){let i=t.geometry,l=i.index,u=i.attributes.position,d=n.index,f=n.attributes.position,p=Bp(e,s),m=Vp(c,o);if(Ih.copy(r).invert(),n.boundsTree)return Fp(Gp(e),a,Rh),Rh.matrix.copy(Ih),Rh.needsUpdate=!0,n.boundsTree.shapecast({intersectsBounds:e=>Rh.intersectsBox(e),intersectsTriangle:e=>{e.a.applyMatrix4(r),e.b.applyMatrix4(r),e.c.applyMatrix4(r),e.needsUpdate=!0;for(let t=p*3,n=(m+p)*3;t<n;t+=3)if(yh(Fh,t,l,u),Fh.needsUpdate=!0,e.intersectsTriangle(Fh))return!0;return!1}});{let e=Im(n);for(let t=p*3,n=(m+p)*3;t<n;t+=3){yh(Ph,t,l,u),Ph.a.applyMatrix4(Ih),Ph.b.applyMatrix4(Ih),Ph.c.applyMatrix4(Ih),Ph.needsUpdate=!0;for(let t=0,n=e*3;t<n;t+=3)if(yh(Fh,t,d,f),Fh.needsUpdate=!0,Ph.intersectsTriangle(Fh))return!0}}}else{let o=Hp(e),c=Up(e,s);return Fp(Gp(o),a,Nh),!!(i.intersectsBox(Nh)&&Bh(o,t,n,r,i)||(Fp(Gp(c),a,Nh),i.intersectsBox(Nh)&&Bh(c,t,n,r,i)))}}var Vh=new vo,Hh=new $m,Uh=new $m,Wh=new X,Gh=new X,Kh=new X,qh=new X;function Jh(e,t,n,r={},i={},a=0,o=1/0){t.boundingBox||t.computeBoundingBox(),Hh.set(t.boundingBox.min,t.boundingBox.max,n),Hh.needsUpdate=!0;let s=e.geometry,c=s.attributes.position,l=s.index,u=t.attributes.position,d=t.index,f=eh.getPrimitive(),p=eh.getPrimitive(),m=Wh,h=Gh,g=null,_=null;i&&(g=Kh,_=qh);let v=1/0,y=null,b=null;return Vh.copy(n).invert(),Uh.matrix.copy(Vh),e.shapecast({boundsTraverseOrder:e=>Hh.distanceToBox(e),intersectsBounds:(e,t,n)=>n<v&&n<o&&(t&&(Uh.min.copy(e.min),Uh.max.copy(e.max),Uh.needsUpdate=!0),!0),intersectsRange:(e,r)=>{if(t.boundsTree)return t.boundsTree.shapecast({boundsTraverseOrder:e=>Uh.distanceToBox(e),intersectsBounds:(e,t,n)=>n<v&&n<o,intersectsRange:(t,i)=>{for(let o=t,s=t+i;o<s;o++){yh(p,3*o,d,u),p.a.applyMatrix4(n),p.b.applyMatrix4(n),p.c.applyMatrix4(n),p.needsUpdate=!0;for(let t=e,n=e+r;t<n;t++){yh(f,3*t,l,c),f.needsUpdate=!0;let e=f.distanceToTriangle(p,m,g);if(e<v&&(h.copy(m),_&&_.copy(g),v=e,y=t,b=o),e<a)return!0}}}});{let i=Im(t);for(let t=0,o=i;t<o;t++){yh(p,3*t,d,u),p.a.applyMatrix4(n),p.b.applyMatrix4(n),p.c.applyMatrix4(n),p.needsUpdate=!0;for(let n=e,i=e+r;n<i;n++){yh(f,3*n,l,c),f.needsUpdate=!0;let e=f.distanceToTriangle(p,m,g);if(e<v&&(h.copy(m),_&&_.copy(g),v=e,y=n,b=t),e<a)return!0}}}}}),eh.releasePrimitive(f),eh.releasePrimitive(p),v===1/0?null:(r.point?r.point.copy(h):r.point=h.clone(),r.distance=v,r.faceIndex=y,i&&(i.point?i.point.copy(_):i.point=_.clone(),i.point.applyMatrix4(Vh),h.applyMatrix4(Vh),i.distance=h.sub(i.point).length(),i.faceIndex=b),r)}function Yh(e,t=null){t&&Array.isArray(t)&&(t=new Set(t));let n=e.geometry,r=n.index?n.index.array:null,i=n.attributes.position,a,o,s,c,l=0,u=e._roots;for(let e=0,t=u.length;e<t;e++)a=u[e],o=new Uint32Array(a),s=new Uint16Array(a),c=new Float32Array(a),d(0,l),l+=a.byteLength;function d(n,a,l=!1){let u=n*2;if(zp(u,s)){let t=Bp(n,o),a=Vp(u,s),l=1/0,d=1/0,f=1/0,p=-1/0,m=-1/0,h=-1/0;for(let n=t,o=t+a;n<o;n++){let t=3*e.resolveTriangleIndex(n);for(let e=0;e<3;e++){let n=t+e;n=r?r[n]:n;let a=i.getX(n),o=i.getY(n),s=i.getZ(n);a<l&&(l=a),a>p&&(p=a),o<d&&(d=o),o>m&&(m=o),s<f&&(f=s),s>h&&(h=s)}}return c[n+0]!==l||c[n+1]!==d||c[n+2]!==f||c[n+3]!==p||c[n+4]!==m||c[n+5]!==h?(c[n+0]=l,c[n+1]=d,c[n+2]=f,c[n+3]=p,c[n+4]=m,c[n+5]=h,!0):!1}{let e=Hp(n),r=Up(n,o),i=l,s=!1,u=!1;if(t){if(!i){let n=e/8+a/32,o=r/8+a/32;s=t.has(n),u=t.has(o),i=!s&&!u}}else s=!0,u=!0;let f=i||s,p=i||u,m=!1;f&&(m=d(e,a,i));let h=!1;p&&(h=d(r,a,i));let g=m||h;if(g)for(let t=0;t<3;t++){let i=e+t,a=r+t,o=c[i],s=c[i+3],l=c[a],u=c[a+3];c[n+t]=o<l?o:l,c[n+t+3]=s>u?s:u}return g}}}function Xh(e,t,n,r,i,a,o){pm.setBuffer(e._roots[t]),wh(0,pm.float32Array,r,a,o)&&Zh(0,e,n,r,i,a,o),pm.clearBuffer()}function Zh(e,t,n,r,i,a,o){let{float32Array:s,uint16Array:c,uint32Array:l}=pm,u=e*2;if(zp(u,c))Th(t,n,r,Bp(e,l),Vp(u,c),i,a,o);else{let c=Hp(e);wh(c,s,r,a,o)&&Zh(c,t,n,r,i,a,o);let u=Up(e,l);wh(u,s,r,a,o)&&Zh(u,t,n,r,i,a,o)}}var Qh=[`x`,`y`,`z`];function $h(e,t,n,r,i,a){pm.setBuffer(e._roots[t]);let o=null;return wh(0,pm.float32Array,r,i,a)&&(o=eg(0,e,n,r,i,a)),pm.clearBuffer(),o}function eg(e,t,n,r,i,a){let{float32Array:o,uint16Array:s,uint32Array:c}=pm,l=e*2;if(zp(l,s))return Eh(t,n,r,Bp(e,c),Vp(l,s),i,a);{let s=Wp(e,c),l=Qh[s],u=r.direction[l]>=0,d,f;u?(d=Hp(e),f=Up(e,c)):(d=Up(e,c),f=Hp(e));let p=wh(d,o,r,i,a)?eg(d,t,n,r,i,a):null;if(p){let e=p.point[l];if(u?e<=o[f+s]:e>=o[f+s+3])return p}let m=wh(f,o,r,i,a)?eg(f,t,n,r,i,a):null;return p&&m?p.distance<=m.distance?p:m:p||m||null}}var tg=new gs,ng=new Qm,rg=new Qm,ig=new vo,ag=new $m,og=new $m;function sg(e,t,n,r){pm.setBuffer(e._roots[t]);let i=cg(0,e,n,r);return pm.clearBuffer(),i}function cg(e,t,n,r,i=null){let{float32Array:a,uint16Array:o,uint32Array:s}=pm,c=e*2;if(i===null&&(n.boundingBox||n.computeBoundingBox(),ag.set(n.boundingBox.min,n.boundingBox.max,r),i=ag),zp(c,o)){let i=t.geometry,l=i.index,u=i.attributes.position,d=n.index,f=n.attributes.position,p=Bp(e,s),m=Vp(c,o);if(ig.copy(r).invert(),n.boundsTree)return Fp(Gp(e),a,og),og.matrix.copy(ig),og.needsUpdate=!0,n.boundsTree.shapecast({intersectsBounds:e=>og.intersectsBox(e),intersectsTriangle:e=>{e.a.applyMatrix4(r),e.b.applyMatrix4(r),e.c.applyMatrix4(r),e.needsUpdate=!0;for(let n=p,r=m+p;n<r;n++)if(yh(rg,3*t.resolveTriangleIndex(n),l,u),rg.needsUpdate=!0,e.intersectsTriangle(rg))return!0;return!1}});{let e=Im(n);for(let n=p,r=m+p;n<r;n++){yh(ng,3*t.resolveTriangleIndex(n),l,u),ng.a.applyMatrix4(ig),ng.b.applyMatrix4(ig),ng.c.applyMatrix4(ig),ng.needsUpdate=!0;for(let t=0,n=e*3;t<n;t+=3)if(yh(rg,t,d,f),rg.needsUpdate=!0,ng.intersectsTriangle(rg))return!0}}}else{let o=Hp(e),c=Up(e,s);return Fp(Gp(o),a,tg),!!(i.intersectsBox(tg)&&cg(o,t,n,r,i)||(Fp(Gp(c),a,tg),i.intersectsBox(tg)&&cg(c,t,n,r,i)))}}var lg=new vo,ug=new $m,dg=new $m,fg=new X,pg=new X,mg=new X,hg=new X;function gg(e,t,n,r={},i={},a=0,o=1/0){t.boundingBox||t.computeBoundingBox(),ug.set(t.boundingBox.min,t.boundingBox.max,n),ug.needsUpdate=!0;let s=e.geometry,c=s.attributes.position,l=s.index,u=t.attributes.position,d=t.index,f=eh.getPrimitive(),p=eh.getPrimitive(),m=fg,h=pg,g=null,_=null;i&&(g=mg,_=hg);let v=1/0,y=null,b=null;return lg.copy(n).invert(),dg.matrix.copy(lg),e.shapecast({boundsTraverseOrder:e=>ug.distanceToBox(e),intersectsBounds:(e,t,n)=>n<v&&n<o&&(t&&(dg.min.copy(e.min),dg.max.copy(e.max),dg.needsUpdate=!0),!0),intersectsRange:(r,i)=>{if(t.boundsTree){let s=t.boundsTree;return s.shapecast({boundsTraverseOrder:e=>dg.distanceToBox(e),intersectsBounds:(e,t,n)=>n<v&&n<o,intersectsRange:(t,o)=>{for(let x=t,S=t+o;x<S;x++){let t=s.resolveTriangleIndex(x);yh(p,3*t,d,u),p.a.applyMatrix4(n),p.b.applyMatrix4(n),p.c.applyMatrix4(n),p.needsUpdate=!0;for(let t=r,n=r+i;t<n;t++){let n=e.resolveTriangleIndex(t);yh(f,3*n,l,c),f.needsUpdate=!0;let r=f.distanceToTriangle(p,m,g);if(r<v&&(h.copy(m),_&&_.copy(g),v=r,y=t,b=x),r<a)return!0}}}})}{let o=Im(t);for(let t=0,s=o;t<s;t++){yh(p,3*t,d,u),p.a.applyMatrix4(n),p.b.applyMatrix4(n),p.c.applyMatrix4(n),p.needsUpdate=!0;for(let n=r,o=r+i;n<o;n++){let r=e.resolveTriangleIndex(n);yh(f,3*r,l,c),f.needsUpdate=!0;let i=f.distanceToTriangle(p,m,g);if(i<v&&(h.copy(m),_&&_.copy(g),v=i,y=n,b=t),i<a)return!0}}}}}),eh.releasePrimitive(f),eh.releasePrimitive(p),v===1/0?null:(r.point?r.point.copy(h):r.point=h.clone(),r.distance=v,r.faceIndex=y,i&&(i.point?i.point.copy(_):i.point=_.clone(),i.point.applyMatrix4(lg),h.applyMatrix4(lg),i.distance=h.sub(i.point).length(),i.faceIndex=b),r)}function _g(e,t,n){return e===null?null:(e.point.applyMatrix4(t.matrixWorld),e.distance=e.point.distanceTo(n.ray.origin),e.object=t,e)}var vg=new $m,yg=new oc,bg=new X,xg=new vo,Sg=new X,Cg=[`getX`,`getY`,`getZ`],wg=class e extends Um{static serialize(e,t={}){t={cloneBuffers:!0,...t};let n=e.geometry,r=e._roots,i=e._indirectBuffer,a=n.getIndex(),o={version:1,roots:null,index:null,indirectBuffer:null};return t.cloneBuffers?(o.roots=r.map(e=>e.slice()),o.index=a?a.array.slice():null,o.indirectBuffer=i?i.slice():null):(o.roots=r,o.index=a?a.array:null,o.indirectBuffer=i),o}static deserialize(t,n,r={}){r={setIndex:!0,indirect:!!t.indirectBuffer,...r};let{index:i,roots:a,indirectBuffer:o}=t;t.version||(console.warn(`MeshBVH.deserialize: Serialization format has been changed and will be fixed up. It is recommended to regenerate any stored serialized data.`),c(a));let s=new e(n,{...r,[Np]:!0});if(s._roots=a,s._indirectBuffer=o||null,r.setIndex){let e=n.getIndex();if(e===null){let e=new Ps(t.index,1,!1);n.setIndex(e)}else e.array!==i&&(e.array.set(i),e.needsUpdate=!0)}return s;function c(e){for(let t=0;t<e.length;t++){let n=e[t],r=new Uint32Array(n),i=new Uint16Array(n);for(let e=0,t=n.byteLength/32;e<t;e++){let t=8*e;zp(2*t,i)||(r[t+6]=r[t+6]/8-e)}}}}get primitiveStride(){return 3}get resolveTriangleIndex(){return this.resolvePrimitiveIndex}constructor(e,t={}){t.maxLeafTris&&(console.warn(`MeshBVH: "maxLeafTris" option has been deprecated. Use "targetLeafSize", instead.`),t={...t,targetLeafSize:t.maxLeafTris}),super(e,t)}shiftTriangleOffsets(e){return super.shiftPrimitiveOffsets(e)}writePrimitiveBounds(e,t,n){let r=this.geometry,i=this._indirectBuffer,a=r.attributes.position,o=r.index?r.index.array:null,s=(i?i[e]:e)*3,c=s+0,l=s+1,u=s+2;o&&(c=o[c],l=o[l],u=o[u]);for(let e=0;e<3;e++){let r=a[Cg[e]](c),i=a[Cg[e]](l),o=a[Cg[e]](u),s=r;i<s&&(s=i),o<s&&(s=o);let d=r;i>d&&(d=i),o>d&&(d=o),t[n+e]=s,t[n+e+3]=d}return t}computePrimitiveBounds(e,t,n){let r=this.geometry,i=this._indirectBuffer,a=r.attributes.position,o=r.index?r.index.array:null,s=a.normalized;if(e<0||t+e-n.offset>n.length/6)throw Error(`MeshBVH: compute triangle bounds range is invalid.`);let c=a.array,l=a.offset||0,u=3;a.isInterleavedBufferAttribute&&(u=a.data.stride);let d=[`getX`,`getY`,`getZ`],f=n.offset;for(let r=e,p=e+t;r<p;r++){let e=(i?i[r]:r)*3,t=(r-f)*6,p=e+0,m=e+1,h=e+2;o&&(p=o[p],m=o[m],h=o[h]),s||(p=p*u+l,m=m*u+l,h=h*u+l);for(let e=0;e<3;e++){let r,i,o;s?(r=a[d[e]](p),i=a[d[e]](m),o=a[d[e]](h)):(r=c[p+e],i=c[m+e],o=c[h+e]);let l=r;i<l&&(l=i),o<l&&(l=o);let u=r;i>u&&(u=i),o>u&&(u=o);let f=(u-l)/2,g=e*2;n[t+g+0]=l+f,n[t+g+1]=f+(Math.abs(l)+f)*Mp}}return n}raycastObject3D(e,t,n=[]){let{material:r}=e;if(r===void 0)return;xg.copy(e.matrixWorld).invert(),yg.copy(t.ray).applyMatrix4(xg),Sg.setFromMatrixScale(e.matrixWorld),bg.copy(yg.direction).multiply(Sg);let i=bg.length(),a=t.near/i,o=t.far/i;if(t.firstHitOnly===!0){let i=this.raycastFirst(yg,r,a,o);i=_g(i,e,t),i&&n.push(i)}else{let i=this.raycast(yg,r,a,o);for(let r=0,a=i.length;r<a;r++){let a=_g(i[r],e,t);a&&n.push(a)}}return n}refit(e=null){return(this.indirect?Yh:Ch)(this,e)}raycast(e,t=0,n=0,r=1/0){let i=this._roots,a=[],o=this.indirect?Xh:Oh;for(let s=0,c=i.length;s<c;s++)o(this,s,t,e,a,n,r);return a}raycastFirst(e,t=0,n=0,r=1/0){let i=this._roots,a=null,o=this.indirect?$h:jh;for(let s=0,c=i.length;s<c;s++){let i=o(this,s,t,e,n,r);i!=null&&(a==null||i.distance<a.distance)&&(a=i)}return a}intersectsGeometry(e,t){let n=!1,r=this._roots,i=this.indirect?sg:zh;for(let a=0,o=r.length;a<o&&(n=i(this,a,e,t),!n);a++);return n}shapecast(e){let t=eh.getPrimitive(),n=super.shapecast({...e,intersectsPrimitive:e.intersectsTriangle,scratchPrimitive:t,iterate:this.indirect?Dh:Sh});return eh.releasePrimitive(t),n}bvhcast(t,n,r){let{intersectsRanges:i,intersectsTriangles:a}=r,o=eh.getPrimitive(),s=this.geometry.index,c=this.geometry.attributes.position,l=this.indirect?e=>{let t=this.resolveTriangleIndex(e);yh(o,t*3,s,c)}:e=>{yh(o,e*3,s,c)},u=eh.getPrimitive(),d=t.geometry.index,f=t.geometry.attributes.position,p=t.indirect?e=>{let n=t.resolveTriangleIndex(e);yh(u,n*3,d,f)}:e=>{yh(u,e*3,d,f)};if(a){if(!(t instanceof e))throw Error(`MeshBVH: "intersectsTriangles" callback can only be used with another MeshBVH.`);let r=(e,t,r,i,s,c,d,f)=>{for(let m=r,h=r+i;m<h;m++){p(m),u.a.applyMatrix4(n),u.b.applyMatrix4(n),u.c.applyMatrix4(n),u.needsUpdate=!0;for(let n=e,r=e+t;n<r;n++)if(l(n),o.needsUpdate=!0,a(o,u,n,m,s,c,d,f))return!0}return!1};if(i){let e=i;i=function(t,n,i,a,o,s,c,l){return e(t,n,i,a,o,s,c,l)?!0:r(t,n,i,a,o,s,c,l)}}else i=r}return super.bvhcast(t,n,{intersectsRanges:i})}intersectsBox(e,t){return vg.set(e.min,e.max,t),vg.needsUpdate=!0,this.shapecast({intersectsBounds:e=>vg.intersectsBox(e),intersectsTriangle:e=>vg.intersectsTriangle(e)})}intersectsSphere(e){return this.shapecast({intersectsBounds:t=>e.intersectsBox(t),intersectsTriangle:t=>t.intersectsSphere(e)})}closestPointToGeometry(e,t,n={},r={},i=0,a=1/0){return(this.indirect?gg:Jh)(this,e,t,n,r,i,a)}closestPointToPoint(e,t={},n=0,r=1/0){return rh(this,e,t,n,r)}},Tg=[[253,231,37],[173,220,48],[94,201,98],[40,174,128],[33,145,140],[44,114,142],[59,82,139],[71,45,123],[68,1,84]],Eg=[[8,48,107],[33,113,181],[107,174,214],[198,219,239],[247,247,247],[253,208,162],[253,141,60],[217,72,1],[127,39,4]];function Dg(e,t=!1){let n=t?Eg:Tg,r=Math.min(Math.max(e,0),1)*(n.length-1),i=Math.min(Math.floor(r),n.length-2),a=n[i],o=n[i+1],s=r-i;return[0,1,2].map(e=>Math.round(a[e]+(o[e]-a[e])*s))}function Og(e=!1){let t=new Uint8Array(1024);for(let n=0;n<256;n++)t.set([...Dg(n/255,e),255],n*4);return t}var[kg,Ag]=[!1,!0].map(e=>{let t=new Sc(Og(e),256,1,ai);return t.colorSpace=ra,t.magFilter=Vr,t.needsUpdate=!0,t}),jg=class{part;raw;mesh;bvh=null;constructor(e,t,n,r=1){this.part=e,this.raw=t;let i=new Ys;i.setAttribute(`position`,new Ps(t.positions,3)),i.setIndex(new Ps(t.index,1)),i.setAttribute(`normal`,new Ps(n,3)),t.values&&i.setAttribute(`reading`,new Ps(t.values,1));let a=new nl({color:new $o().setRGB(...e.colour.map(e=>e/255),ra),side:2,transparent:r<1,opacity:r});t.values&&Ng(a,e),this.mesh=new yc(i,a),this.mesh.visible=e.shown,this.mesh.frustumCulled=!1}take(e){this.bvh=wg.deserialize(e,this.mesh.geometry,{setIndex:!1})}fade(e){let{material:t}=this.mesh;t.opacity=e,t.transparent=e<1,t.depthWrite=e>=1,t.side=e<1?0:2,t.needsUpdate=!0}reading(e,t){let{values:n,index:r,positions:i}=this.raw;if(!n)return null;let a=[0,1,2].map(t=>r[e*3+t]),o=Mg(a.map(e=>i.subarray(e*3,e*3+3)),t),s=a.reduce((e,t,r)=>e+o[r]*n[t],0);return Number.isFinite(s)?s:null}tooth(e){return this.raw.teeth?.[e]??0}dispose(){this.mesh.geometry.dispose(),this.mesh.material.dispose()}};function Mg([e,t,n],r){let i=(e,t)=>[0,1,2].map(n=>e[n]-t[n]),a=(e,t)=>e[0]*t[0]+e[1]*t[1]+e[2]*t[2],[o,s,c]=[i(t,e),i(n,e),i(r,e)],[l,u,d,f,p]=[a(o,o),a(o,s),a(s,s),a(c,o),a(c,s)],m=l*d-u*u||1,h=(d*f-u*p)/m,g=(l*p-u*f)/m;return[1-h-g,h,g]}function Ng(e,t){let n=t.levels.map(e=>e.toFixed(4)),r=Math.min(t.high-t.low,...t.levels.slice(1).map((e,n)=>e-t.levels[n]));e.onBeforeCompile=e=>{e.uniforms.ramp={value:t.low<0?Ag:kg},e.uniforms.low={value:t.low},e.uniforms.high={value:t.high},e.vertexShader=e.vertexShader.replace(`#include <common>`,`#include <common>
attribute float reading;
varying float vReading;`).replace(`#include <begin_vertex>`,`#include <begin_vertex>
vReading = reading;`);let i=n.map(e=>`line = max(line, 1.0 - smoothstep(0.6, 1.4, abs(vReading - ${e}) / wide));`).join(`
`);e.fragmentShader=e.fragmentShader.replace(`#include <common>`,`#include <common>
uniform sampler2D ramp;
uniform float low;
uniform float high;
varying float vReading;`).replace(`#include <color_fragment>`,`#include <color_fragment>
        if (${t.low<0?`true`:`vReading > 0.01`}) {
          float share = clamp((vReading - low) / (high - low), 0.0, 1.0);
          diffuseColor.rgb = texture2D(ramp, vec2(share, 0.5)).rgb;
          float wide = max(fwidth(vReading), 1e-5);
          float line = 0.0;
          ${i}
          line *= 1.0 - smoothstep(0.08, 0.3, wide / ${r.toFixed(4)}); // no lines where all is noise
          diffuseColor.rgb = mix(diffuseColor.rgb, vec3(0.02), 0.8 * line);
        }`)}}var Pg=500,Fg=1.75,Ig=class{canvas;eye=new kp;renderer;scene=new ts;surfaces=new Map;drawn=new Map;light=new Bl(16777215,2.1);labels=[];asked=0;still=0;onLabels=()=>{};constructor(e){this.canvas=e,this.renderer=new Op({canvas:e,antialias:window.devicePixelRatio<2&&!Rg()}),this.scene.add(new Vl(16777215,1.2),this.light),new ResizeObserver(()=>this.fit()).observe(e),this.fit()}async add(e,t,n=1){this.remove(e.key);let r=new jg(e,t.raw,t.normals,n);this.surfaces.set(e.key,r),this.scene.add(r.mesh),this.draw(),this.tellBusy();let i=await t.tree;this.surfaces.get(e.key)===r&&(r.take(i),this.tellBusy(),this.placeLabels())}tellBusy(){this.canvas.setAttribute(`aria-busy`,String([...this.surfaces.values()].some(e=>!e.bvh)))}has(e){return this.surfaces.has(e)}keep(e){for(let t of[...this.surfaces.keys()])e.includes(t)||this.remove(t)}remove(e){let t=this.surfaces.get(e);t&&(this.scene.remove(t.mesh),t.dispose(),this.surfaces.delete(e),this.tellBusy())}show(e,t){let n=this.surfaces.get(e);n&&(n.mesh.visible=t),this.draw()}fade(e,t){this.surfaces.get(e)?.fade(t),this.draw()}lines(e,t,n,r=!1){for(let t of this.drawn.get(e)??[])this.scene.remove(t),t.geometry.dispose(),t.material.dispose();let i=t.filter(e=>e.length>1).map(t=>{let i=new Ys;i.setAttribute(`position`,new Ps(new Float32Array(t.flat()),3));let a=new kc({color:n,depthTest:![`cut`,`pulled`,`bases`,`fresh`].includes(e)}),o=r?new zc(i,a):new Lc(i,a);return o.renderOrder=1,o.frustumCulled=!1,this.scene.add(o),o});this.drawn.set(e,i),this.draw()}setLabels(e){this.labels=e,this.draw()}paper(e){this.scene.background=new $o(e),this.draw()}whole(){let e=new X(1/0,1/0,1/0),t=new X(-1/0,-1/0,-1/0);for(let{mesh:n}of this.surfaces.values())n.visible&&(n.geometry.computeBoundingBox(),e.min(n.geometry.boundingBox.min),t.max(n.geometry.boundingBox.max));e.x<t.x&&this.eye.whole(e.clone().add(t).multiplyScalar(.5),1.05*(t.x-e.x)),this.draw()}pick(e,t,n){let r=this.canvas.getBoundingClientRect(),i=new au;i.setFromCamera(new Y(e/r.width*2-1,1-t/r.height*2),this.eye.camera),i.ray.origin.addScaledVector(i.ray.direction,-200);let a=null;for(let[e,t]of this.surfaces){if(!t.mesh.visible||n&&n!==e)continue;let r=t.bvh?.raycastFirst(i.ray,2);if(!r||a&&r.distance>=a.distance)continue;let o=r.point.toArray(),s=r.faceIndex??0;a={hit:{part:e,at:o,tooth:t.tooth(s),reading:t.reading(s,o)},distance:r.distance}}return a?.hit??null}project(e){let t=this.canvas.getBoundingClientRect(),n=new X(...e).project(this.eye.camera);return{x:(n.x+1)/2*t.width,y:(1-n.y)/2*t.height}}draw(){this.asked||=requestAnimationFrame(()=>this.frame())}dispose(){clearTimeout(this.still),cancelAnimationFrame(this.asked);for(let e of[...this.surfaces.keys()])this.remove(e);for(let e of[...this.drawn.keys()])this.lines(e,[],0);cancelAnimationFrame(this.asked),this.renderer.dispose()}frame(){this.asked=0,this.render(1),clearTimeout(this.still),Rg()&&window.devicePixelRatio<2&&(this.still=window.setTimeout(()=>this.render(Fg),Pg)),this.placeLabels()}render(e){let t=Math.min(window.devicePixelRatio,2)*e;this.renderer.getPixelRatio()!==t&&this.renderer.setPixelRatio(t),this.light.position.set(-.4,.7,1).applyQuaternion(this.eye.camera.quaternion),this.renderer.render(this.scene,this.eye.camera)}placeLabels(){this.onLabels(this.labels.map(e=>({label:e,...this.project(e.at),shown:this.sees(e)})))}sees({at:e,kind:t}){if(t===`flag`)return!0;let n=new X(0,0,1).applyQuaternion(this.eye.camera.quaternion),r=new au(new X(...e).addScaledVector(n,t===`code`?.8:2.2),n).ray;for(let{mesh:e,bvh:t}of this.surfaces.values())if(e.visible&&t?.raycastFirst(r,2))return!1;return!0}fit(){let{clientWidth:e,clientHeight:t}=this.canvas;e&&t&&(this.renderer.setSize(e,t,!1),this.eye.shape(e/t),this.draw())}},Lg=null;function Rg(){if(Lg===null){let e=document.createElement(`canvas`).getContext(`webgl2`),t=e?.getExtension(`WEBGL_debug_renderer_info`),n=e&&t?String(e.getParameter(t.UNMASKED_RENDERER_WEBGL)):``;Lg=/swiftshader|llvmpipe|software|basic render/i.test(n),e?.getExtension(`WEBGL_lose_context`)?.loseContext()}return Lg}var zg={touch:30,pen:22},Bg={touch:10,pen:7};function Vg(e,t,n){let r=new Map,i=!1,a={x:0,y:0},o=4,s=0,c=!0,l=t=>{let n=e.getBoundingClientRect();return{x:t.clientX-n.left,y:t.clientY-n.top}},u=t=>{e.setPointerCapture(t.pointerId);let u=l(t);if(r.set(t.pointerId,u),r.size>1)c=!1,i&&n.leave(),i=!1;else{s=0,o=Bg[t.pointerType]??4,c=t.button===0;let e=t.button===0?n.grab(u.x,u.y,zg[t.pointerType]??18):null;i=e!==null,a=e&&t.pointerType===`touch`?{x:e.x-u.x,y:e.y-u.y}:{x:0,y:0}}},d=u=>{let d=l(u),p=r.get(u.pointerId);if(!p)return n.hover(d.x,d.y);let m=d.x-p.x,h=d.y-p.y;if(s+=Math.hypot(m,h),i)n.drag(d.x+a.x,d.y+a.y);else if(r.size===2)f(u.pointerId,p,d);else if(s>o||!c){let n=e.clientHeight;u.buttons&2||u.shiftKey?t.eye.shift(m/n,-h/n):t.eye.turn(m*.4,h*.4),t.draw()}r.set(u.pointerId,d)},f=(n,i,a)=>{let o=[...r].find(([e])=>e!==n)[1],s=Math.hypot(i.x-o.x,i.y-o.y),c=Math.hypot(a.x-o.x,a.y-o.y);t.eye.zoom(s/Math.max(c,1)),t.eye.shift((a.x-i.x)/2/e.clientHeight,(i.y-a.y)/2/e.clientHeight),t.draw()},p=e=>{let t=l(e);r.delete(e.pointerId)&&(i&&e.type===`pointercancel`?n.leave():i?n.drop(t.x+a.x,t.y+a.y):c&&s<=o&&e.type===`pointerup`&&n.tap(t.x,t.y),i=!1)},m=e=>{e.preventDefault(),t.eye.zoom(Math.exp(Math.max(-60,Math.min(60,e.deltaY))*.003)),t.draw()},h=r=>{let i={ArrowLeft:[-1,0],ArrowRight:[1,0],ArrowUp:[0,-1],ArrowDown:[0,1]}[r.key];if(i)r.altKey?n.nudge(i[0]*3,i[1]*3):r.shiftKey?t.eye.shift(-i[0]*.05,i[1]*.05):t.eye.turn(i[0]*6,i[1]*6);else if(r.key===`+`||r.key===`=`)t.eye.zoom(.87);else if(r.key===`-`)t.eye.zoom(1.15);else if(r.key===`0`)t.whole();else if(r.key===`[`||r.key===`]`)n.next(r.key===`]`?1:-1);else if(r.key===`Enter`&&n.letGo())return r.preventDefault();else if(r.key===`Enter`)n.tap(e.clientWidth/2,e.clientHeight/2);else return;r.preventDefault(),t.draw()},g=e=>e.preventDefault();return e.addEventListener(`pointerdown`,u),e.addEventListener(`pointermove`,d),e.addEventListener(`pointerup`,p),e.addEventListener(`pointercancel`,p),e.addEventListener(`wheel`,m,{passive:!1}),e.addEventListener(`keydown`,h),e.addEventListener(`contextmenu`,g),()=>{e.removeEventListener(`pointerdown`,u),e.removeEventListener(`pointermove`,d),e.removeEventListener(`pointerup`,p),e.removeEventListener(`pointercancel`,p),e.removeEventListener(`wheel`,m),e.removeEventListener(`keydown`,h),e.removeEventListener(`contextmenu`,g)}}function Hg({part:e}){if(!e)return null;let t=t=>(t-e.low)/(e.high-e.low)*300,n=e=>lr(e,``,H.value),r=[`${G(e.values_name)} ${n(e.low)} … ${n(e.high)} ${ur(e.values_unit)}`,...e.ends?[`− ${G(e.ends[0])}, + ${G(e.ends[1])}`]:[]].join(`; `);return W(`svg`,{class:`legend`,viewBox:`-12 -16 350 ${e.ends?64:50}`,role:`img`,"aria-label":r,children:[W(`text`,{x:0,y:-5,children:[G(e.values_name),` [`,ur(e.values_unit),`]`]}),Array.from({length:60},(t,n)=>W(`rect`,{x:n*5,y:2,width:5.4,height:12,fill:`rgb(${Dg(n/59,e.low<0).join(` `)})`},n)),[...new Set([e.low,...e.levels,e.high])].map(e=>W(`g`,{children:[W(`line`,{x1:t(e),x2:t(e),y1:1,y2:17}),W(`text`,{x:t(e),y:29,"text-anchor":`middle`,children:n(e)})]},e)),e.ends?.map((e,t)=>W(`text`,{x:t*300,y:44,"text-anchor":t?`end`:`start`,children:[t?`+ `:`− `,G(e)]},e))]})}function Ug(e,t,n){let r=Math.hypot(n[0],n[1]),i=r>1e-6?[n[1]/r,-n[0]/r,0]:[1,0,0],a=[n[1]*i[2]-n[2]*i[1],n[2]*i[0]-n[0]*i[2],n[0]*i[1]-n[1]*i[0]],o=a[2]<0?-1:1,s=Math.hypot(...a)||1;return e.map(e=>{let n=[e[0]-t[0],e[1]-t[1],e[2]-t[2]],r=n[0]*i[0]+n[1]*i[1]+n[2]*i[2],c=(n[0]*a[0]+n[1]*a[1]+n[2]*a[2])/s;return[r,-o*c]})}function Wg(){let e=In.value;return!e||!Fn.value.length?null:W(`figure`,{class:`section`,children:W(`svg`,{viewBox:`-11 -11 22 22`,role:`img`,"aria-label":`${U(`section`)}: ${Fn.value.filter(e=>e.area_mm2!==null).map(e=>`${e.part} ${lr(e.area_mm2,`mm2`,H.value)}`).join(`, `)}`,children:[Fn.value.map(t=>W(`path`,{class:t.part,d:t.lines_arch_mm.map(t=>Ug(t,e.at,e.normal)).map(e=>`M${e.map(e=>e.map(e=>e.toFixed(3)).join(` `)).join(`L`)}`).join(``)},t.part)),W(`g`,{class:`scale`,children:[W(`line`,{x1:-10,x2:-5,y1:10,y2:10}),W(`text`,{x:-7.5,y:9.5,children:`5 mm`})]})]})})}function Gg(e){let{tools:t}=e;return W(`div`,{class:`tools`,children:[W(`fieldset`,{children:[W(`legend`,{children:U(`look`)}),e.view.looks.map(t=>W(`button`,{onClick:()=>e.look(t),children:G(t.name)},t.name))]}),W(`fieldset`,{children:[W(`legend`,{children:U(`show`)}),e.view.parts.map(e=>W(`label`,{class:`tick`,children:[W(`input`,{type:`checkbox`,checked:An.value[e.key]??e.shown,onChange:t=>An.value={...An.value,[e.key]:t.currentTarget.checked}}),G(e.name)]},e.key))]}),t.length>1&&W(`div`,{class:`row`,role:`radiogroup`,"aria-label":U(`pointer`),children:[t.map(t=>W(`button`,{role:`radio`,"aria-checked":kn.value===t,onClick:()=>{kn.value=t,e.clear()},children:U(t)},t)),W(`button`,{onClick:e.clear,children:U(`reset`)})]})]})}async function Kg(e,t){let{data:n,error:r}=await B.POST(`/api/cases/{name}/way`,{params:{path:{name:Xt.value}},body:{a_arch_mm:e,b_arch_mm:t}});return n?(Pn.value=n,n.points_arch_mm):(V.value=Lt(r),null)}async function qg(e,t){let{data:n,error:r}=await B.POST(`/api/cases/{name}/place`,{params:{path:{name:Xt.value}},body:{part:e,at_arch_mm:t}});Nn.value=n??null,n||(V.value=Lt(r))}async function Jg(e,t){let n=e=>Math.hypot(e[0]-t[0],e[1]-t[1]),r=[...e.teeth].sort((e,t)=>n(e.centre)-n(t.centre))[0]?.mesial??[0,1,0],{data:i,error:a}=await B.POST(`/api/cases/{name}/section`,{params:{path:{name:Xt.value}},body:{at_arch_mm:t,normal_arch:r}});return i?(Fn.value=i.cuts,In.value={at:t,normal:r},i.cuts.flatMap(e=>e.lines_arch_mm)):(V.value=Lt(a),[])}async function Yg(e,t){let n=qt.value?.retainers.find(t=>t.tooth===e);if(t.tooth!==e||!n?.clasp||t.reading===null||t.reading<.01)return V.value=`${e}: no undercut there on this tooth.`,!1;let r=Math.round(t.reading*100)/100;return dn(await B.PUT(`/api/cases/{name}/retainers`,{params:{path:{name:Xt.value}},body:{retainer:{...n,clasp:{...n.clasp,undercut_mm:r}},...fn(`${e}: clasp tip moved to ${r} mm undercut`)}}))}async function Xg(e,t,n){let r=e.scan_to_arch;if(!r)return!1;let i=n.at.map((e,t)=>e-r[t][3]),a=[0,1,2].map(e=>r[0][e]*i[0]+r[1][e]*i[1]+r[2][e]*i[2]);return dn(await B.PUT(`/api/cases/{name}/marks`,{params:{path:{name:Xt.value}},body:{tooth:t,at_scan_mm:a.map(e=>Math.round(e*1e3)/1e3),...fn(`${t}: mark moved`)}}))}async function Zg(){let{data:e,error:t}=await B.GET(`/api/cases/{name}/handles`,{params:{path:{name:Xt.value}}});Ln.value=e?.handles??[],e||(V.value=Lt(t))}var Qg=!1,$g=null;async function e_(e,t){if($g={handle:e,at:t},!Qg){for(Qg=!0;$g;){let{handle:e,at:t}=$g;$g=null;let{data:n,error:r}=await B.GET(`/api/cases/{name}/handles/{handle}`,{params:{path:{name:Xt.value,handle:e},query:{x_mm:t[0],y_mm:t[1],z_mm:t[2]}}});Rn.value=n??null,V.value=n?``:Lt(r)}Qg=!1}}async function t_(e,t){$g=null;let n=dn(await B.PUT(`/api/cases/{name}/handles`,{params:{path:{name:Xt.value}},body:{handle:e,at_arch_mm:t,...fn(``)}}));return Rn.value=null,n}function n_({view:e,stamp:t,tools:n=[`turn`,`measure`,`section`,`tip`,`border`,`mark`]}){let r=we(null),i=we(null),a=z(null),o=z([]),s=z(!0),c=we(null),l=we(null),u=we(null),d=we(e);d.current=e,F(()=>{n.includes(kn.value)||(kn.value=`turn`);let e=new Ig(r.current);i.current=e;let t=()=>e.paper(getComputedStyle(document.documentElement).getPropertyValue(`--scene`).trim());t();let s=matchMedia(`(prefers-color-scheme: dark)`);s.addEventListener(`change`,t),Mn.value=()=>e.eye.toward(),e.onLabels=e=>o.value=e,Object.assign(window,{claspwrightViewer:e});let f=Vg(r.current,e,{hover:(t,n)=>a.value=e.pick(t,n),tap:(t,n)=>void h(e.pick(t,n,kn.value===`section`?s_(d.current):void 0)),grab:(t,n,r)=>{let i=l_(e,d.current,t,n,r);return c.current=i,i&&e.project(i.at)},leave:()=>{c.current=null,Rn.value=null,e.setLabels(i_(d.current))},drag:(t,n)=>{let r=e.pick(t,n,`model`);a.value=r,r&&c.current&&p(c.current.id,r)},drop:(t,n)=>{let r=e.pick(t,n,`model`),i=c.current;c.current=null,r&&i&&m(i,r)},next:t=>{let n=u_(d.current);if(!n.length)return;let r=n.findIndex(e=>e.id===c.current?.id),i=n[(r+t+n.length+ +(r<0&&t<0))%n.length];c.current={tooth:i.tooth,id:i.id},l.current=e.project(i.at),a.value=e.pick(l.current.x,l.current.y,`model`),e.setLabels(i_(d.current,{id:i.id,at:i.at}))},nudge:(t,n)=>{if(!c.current||!l.current)return!1;let r={x:l.current.x+t,y:l.current.y+n},i=e.pick(r.x,r.y,`model`);return i?(l.current=r,a.value=i,p(c.current.id,i),!0):!1},letGo:()=>{let[t,n]=[c.current,l.current];if(!t||!n)return!1;c.current=l.current=null;let r=e.pick(n.x,n.y,`model`);return r&&m(t,r),!0}}),p=(t,n)=>{e.setLabels(i_(d.current,{id:t,at:n.at})),kn.value===`border`&&e_(t,n.at)},m=(t,n)=>{({mark:()=>Xg(d.current,t.tooth,n),border:()=>t_(t.id,n.at)}[kn.value]??(()=>Yg(t.tooth,n)))().then(t=>{t&&kn.value!==`border`||e.setLabels(i_(d.current))})},h=async t=>{if(t){if(kn.value===`measure`){if(qg(c_(d.current,t.part),t.at),t.part!==s_(d.current)){e.setLabels([...i_(d.current),{key:`a`,at:t.at,text:`·`,kind:`flag`}]);return}if(!u.current)u.current=t.at,e.setLabels([...i_(d.current),{key:`a`,at:t.at,text:`1`,kind:`flag`}]);else{let n=await Kg(u.current,t.at);e.lines(`way`,n?[n]:[],11546720),u.current=null}}else kn.value===`section`?e.lines(`cut`,await Jg(d.current,t.at),11546720):t.tooth&&(On.value=On.value===t.tooth?null:t.tooth)}};return()=>{s.removeEventListener(`change`,t),f(),Mn.value=null,e.dispose()}},[]),F(()=>{let n=i.current,r=!1;return s.value=!0,(async()=>{An.value=Object.fromEntries(e.parts.map(e=>[e.key,e.shown]));let i=a_(e,e.parts.filter(e=>e.shown));n.keep(e.parts.map(e=>e.key).filter(e=>An.value[e]));let a=await Promise.all(i.map(e=>jr(Xt.value,e,t)));if(r)return;let o=i.map((e,t)=>n.add(e,a[t]));o_(n,e);let c=e.looks[0];c&&n.eye.look(c.toward,c.up),n.whole(),await o[0],r||(s.value=!1)})().catch(e=>V.value=String(e)),n.lines(`survey`,e.tracks.map(e=>e.points),2106412),n.setLabels(i_(e)),()=>{r=!0}},[e,t]),F(()=>{if(!n.includes(`tip`))return;let a=new Set,o=e.parts.find(e=>e.key===`framework`);return ct(()=>{let e=nr.value,n=i.current,s=async(t,i,o)=>{let s=await jr(Xt.value,t,i);nr.value===e&&(n.remove(`preview`),a.add(t.key),n.add({...t,shown:t.key===`preview`||(An.value.framework??!0)},s,o),n.setLabels(i_(d.current)),r.current?.setAttribute(`data-live`,e?e.part.key:``))};if(n.lines(`fresh`,e?.borders??[],11546720),e){let t=`/api/cases/${encodeURIComponent(Xt.value)}/live`;s({...e.part,from:t},e.stamp,e.part.key===`preview`?.8:1)}else a.size&&o&&(n.remove(`preview`),a.clear(),s(o,t,1))})},[e,t]),F(()=>ct(()=>{let t=i.current;for(let[e,n]of Object.entries(An.value))t?.has(e)?t.show(e,n):n&&!s.peek()&&f(e);t&&o_(t,e)}),[e,t]);let f=async n=>{let r=e.parts.find(e=>e.key===n);if(!r)return;let a=await jr(Xt.value,r,t);d.current===e&&!i.current?.has(n)&&i.current?.add({...r,shown:An.value[n]??!0},a),i.current&&o_(i.current,e)};F(()=>ct(()=>{let t=jn.value,n=i.current;t&&n&&(n.eye.go(t.at,Math.min(n.eye.mmHigh,28)),n.setLabels([...i_(e),{key:`here`,at:t.at,text:``,kind:`ring`}]))}),[e]),F(()=>ct(()=>{kn.value===`border`&&Ln.value===null&&Zg();let t=kn.value===`border`?e.base_borders??[]:[];i.current?.lines(`bases`,t.flatMap(e=>[e.buccal,e.lingual]),11546720),kn.value&&i.current?.setLabels(i_(e))}),[e]);let p=qt.value?.revisions.at;return F(()=>{Ln.value=null},[e,t,p]),F(()=>ct(()=>i.current?.lines(`pulled`,Rn.value?[Rn.value.line_arch_mm]:[],11546720)),[]),F(()=>ct(()=>{let t=e.teeth.find(e=>e.code===On.value);i.current?.lines(`chosen`,t?[t.margin]:[],11546720,!0)}),[e]),W(`section`,{class:`model`,"aria-labelledby":`model`,children:[W(`h2`,{id:`model`,class:`unseen`,children:U(`model`)}),W(`div`,{class:`frame`,children:[W(`canvas`,{ref:r,tabIndex:0,"data-tool":kn.value,"aria-describedby":`how`,children:U(`model`)}),W(`div`,{class:`over`,"aria-hidden":`true`,children:o.value.map(({label:e,x:t,y:n,shown:r})=>W(`span`,{class:`${e.kind}${r?``:` behind`}`,"data-key":e.key,style:{left:`${t}px`,top:`${n}px`},children:e.text},e.key))}),W(Wg,{}),s.value&&W(`p`,{class:`waiting`,role:`status`,children:`…`})]}),W(Gg,{view:e,tools:n,look:e=>(i.current?.eye.look(e.toward,e.up),i.current?.whole()),clear:()=>{Pn.value=null,Nn.value=null,Rn.value=null,Fn.value=[],In.value=null,u.current=null,i.current?.lines(`way`,[],0),i.current?.lines(`cut`,[],0),i.current?.setLabels(i_(e))}}),W(r_,{hit:a.value,view:e}),e.parts.filter(e=>e.with_values&&(An.value[e.key]??e.shown)).map(e=>W(Hg,{part:e},e.key)),W(`p`,{id:`how`,class:`small`,children:f_(kn.value)})]})}function r_({hit:e,view:t}){let n=t.parts.find(t=>t.key===e?.part),r=(e,t)=>lr(e,t,H.value),i=(e,t)=>typeof e==`number`?r(e,t):e;return W(`p`,{class:`reading`,role:`status`,children:[e?.tooth?W(`b`,{children:e.tooth}):null,e&&e.reading!==null&&W(`span`,{children:[n?.key===`model`?U(`undercut`):G(n?.values_name??``),` `,W(`b`,{"data-reading":e.reading,children:r((n?.low??0)<0?e.reading:Math.max(e.reading,0),n?.values_unit??`mm`)})]}),Pn.value&&W(`span`,{children:[U(`straight`),` `,W(`b`,{children:r(Pn.value.straight_mm,`mm`)}),`, `,U(`over`),` `,W(`b`,{children:r(Pn.value.surface_mm,`mm`)})]}),Nn.value&&Nn.value.thickness_mm!==null&&W(`span`,{"data-thickness":Nn.value.thickness_mm,children:[U(`thickness`),` `,W(`b`,{children:[Nn.value.or_more&&`≥ `,r(Nn.value.thickness_mm,`mm`)]})]}),Nn.value&&Nn.value.clearance_mm!==null&&W(`span`,{children:[U(`clearance`),` `,W(`b`,{children:r(Nn.value.clearance_mm,`mm`)})]}),Rn.value&&W(`span`,{"data-pulled":Rn.value.after,children:[G(Rn.value.words),` `,i(Rn.value.before,Rn.value.unit),` →`,` `,W(`b`,{children:i(Rn.value.after,Rn.value.unit)}),Rn.value.limit!==null&&W(b,{children:[` · `,U(`limit`),` `,r(Rn.value.limit,Rn.value.unit),` `,Rn.value.severity&&W(`b`,{class:Rn.value.severity,children:G(Rn.value.severity)})]})]}),Fn.value.filter(e=>e.area_mm2!==null).map(e=>W(`span`,{children:[G(e.part.replace(`_`,` `)),`: `,U(`area`),` `,W(`b`,{children:r(e.area_mm2,`mm2`)})]},e.part))]})}function i_(e,t){let n=e.teeth.map(e=>({key:String(e.code),at:e.mark,text:String(e.code),kind:`code`})),r=u_(e).map(e=>({key:`tip.${e.id}`,at:t?.id===e.id?t.at:e.at,text:``,kind:`ring`})),i=(e.labels??[]).map((e,t)=>({...e,key:`label.${t}`}));return i.length?i:kn.value===`mark`?r:[...n,...r]}function a_(e,t){let n=s_(e);return[...t].sort((e,t)=>Number(t.key===n)-Number(e.key===n))}function o_(e,t){let n=t.parts.filter(e=>e.through!==void 0&&An.value[e.key]);for(let t of n)e.fade(t.key,n.length>1?t.through:1)}function s_(e){return e.parts.some(e=>e.key===`model`)?`model`:`lifting`}function c_(e,t){return t===`stress`?`framework`:e.parts.find(e=>e.key===t)?.from?`model`:t}function l_(e,t,n,r,i){let a=null,o=i;for(let i of u_(t)){if(!e.sees({at:i.at,kind:`ring`}))continue;let t=e.project(i.at),s=Math.hypot(t.x-n,t.y-r);s<o&&(o=s,a=i)}return a}function u_(e){return kn.value===`mark`?e.teeth.map(e=>({tooth:e.code,id:`mark.${e.code}`,at:e.mark})):kn.value===`border`?(Ln.value??[]).map(e=>({tooth:e.tooth??0,id:e.id,at:e.at_arch_mm})):kn.value===`tip`?d_(e).map(e=>({tooth:e.tooth,id:e.id,at:e.line[e.line.length-1]})):[]}function d_(e){let t=nr.value?.components??[];return e.components.map(e=>t.find(t=>t.id===e.id)??e).filter(e=>e.kind===`retentive arm`&&e.tooth!==null)}function f_(e){return{turn:U(`turnHow`),measure:U(`measureHow`),section:U(`sectionHow`),tip:U(`dragTip`),mark:U(`dragMark`),border:U(`dragBorder`)}[e]}function p_(e){let{cone:t,front:n,side:r}=e,i=Math.max(...t.tilts_deg.map(([e,t])=>Math.max(Math.abs(e),Math.abs(t))))+1,[a,o]=[Math.min(...t.points),Math.max(...t.points)],s=m_(t,n,r),c=(e,t)=>lr(e,t,H.value),l=n=>{let r=n.currentTarget.getBoundingClientRect(),a=(e,t)=>e/t*2*i-i,o=m_(t,-a(n.clientY-r.top,r.height),a(n.clientX-r.left,r.width)),[s,c]=t.tilts_deg[o];e.choose(s,c)},u=`${c(n,`deg`)} / ${c(r,`deg`)}: ${c(t.points[s],``)} ${U(`points`)}${t.least_undercut_mm?`, ${U(`leastUndercut`)} ${c(t.least_undercut_mm[s],`mm`)}`:``}`;return W(`figure`,{class:`cone`,children:[W(`svg`,{viewBox:`${-i} ${-i} ${2*i} ${2*i}`,role:`img`,"aria-label":`${U(`coneMap`)}. ${u}`,onClick:l,children:[t.tilts_deg.map(([e,n],r)=>W(`rect`,{x:n-t.step_deg/2,y:-e-t.step_deg/2,width:t.step_deg*1.03,height:t.step_deg*1.03,fill:`rgb(${Dg((t.points[r]-a)/(o-a||1)).join(` `)})`},r)),W(`circle`,{class:`usual`,r:10}),W(`path`,{class:`zero`,d:`M-0.8 0H0.8M0 -0.8V0.8`}),W(`circle`,{class:`chosen`,cx:r,cy:-n,r:.9}),W(`text`,{x:-i+.2,y:-i+1.7,children:[`↑ `,U(`anterior`)]}),W(`text`,{class:`end`,x:i-.2,y:i-.5,children:[U(`lateral`),` →`]})]}),W(`figcaption`,{class:`small`,"aria-live":`polite`,children:[u,`. `,U(`coneHow`)]})]})}function m_(e,t,n){let r=0,i=1/0;return e.tilts_deg.forEach(([e,a],o)=>{let s=Math.hypot(e-t,a-n);s<i&&([r,i]=[o,s])}),r}function h_({name:e,view:t}){let n=qt.value?.tilts??null,r=z(0),i=z(0);F(()=>{r.value=n?.anterior_tilt_deg??0,i.value=n?.right_lateral_tilt_deg??0},[qt.value]);let a=async t=>dn(await B.PUT(`/api/cases/{name}/path`,{params:{path:{name:e}},body:{tilts:t,...fn(t?`path ${t.anterior_tilt_deg}° / ${t.right_lateral_tilt_deg}°`:`path to be searched`)}})),o=async()=>{let[t,n,a]=Mn.value(),{data:o,error:s}=await B.GET(`/api/cases/{name}/tilts`,{params:{path:{name:e},query:{x:t,y:n,z:a}}});V.value=o?``:Lt(s),o&&(r.value=o.anterior_tilt_deg,i.value=o.right_lateral_tilt_deg)},s=(e,t)=>W(`label`,{class:`number`,children:[e,W(`input`,{type:`number`,step:.5,min:-20,max:20,value:t.value,onChange:e=>t.value=e.currentTarget.valueAsNumber||0}),`°`]});return W(`section`,{children:[W(`h2`,{children:U(`path`)}),t&&W(`p`,{children:t.path_words}),t?.cone&&W(p_,{cone:t.cone,front:r.value,side:i.value,choose:(e,t)=>{r.value=e,i.value=t}}),Mn.value&&W(`p`,{children:[W(`button`,{onClick:()=>void o(),children:U(`asSeen`)}),` `,W(`span`,{class:`small`,children:U(`asSeenHow`)})]}),W(`div`,{class:`row`,children:[s(U(`anterior`),r),s(U(`lateral`),i),W(`button`,{onClick:()=>void a({anterior_tilt_deg:r.value,right_lateral_tilt_deg:i.value}),children:U(`prescribe`)}),qt.value?.path_is_prescribed&&W(`button`,{onClick:()=>void a(null),children:U(`search`)})]})]})}var g_=[`mesial`,`distal`];function __({name:e,code:t,view:n}){let r=qt.value?.retainers.find(e=>e.tooth===t)??null,i=z(r??x_(t));F(()=>{i.value=r??x_(t)},[t,qt.value]);let a=i.value,o=e=>i.value={...a,...e},s=n?.teeth.find(e=>e.code===t)?.deepest_undercut_mm,c=async()=>{dn(await B.PUT(`/api/cases/{name}/retainers`,{params:{path:{name:e}},body:{retainer:a,...fn(`${t}: ${S_(a)}`)}}))},l=async()=>dn(await B.DELETE(`/api/cases/{name}/retainers/{tooth}`,{params:{path:{name:e,tooth:t}}}));return W(`section`,{class:`card`,"aria-label":String(t),"data-tooth":t,children:[W(`h3`,{children:t}),s&&W(`p`,{class:`small`,children:[U(`room`),`: `,U(`buccal`),` `,lr(s.buccal,`mm`,H.value),`, `,U(`lingual`),` `,lr(s.lingual,`mm`,H.value)]}),W(y_,{legend:U(`rests`),all:er.value.rests,chosen:a.rests??[],change:e=>o({rests:e})}),W(y_,{legend:U(`plates`),all:g_,chosen:a.proximal_plates??[],change:e=>o({proximal_plates:e})}),W(v_,{clasp:a.clasp??null,change:e=>o({clasp:e})}),W(`label`,{class:`tick`,children:[W(`input`,{type:`checkbox`,checked:a.indirect??!1,onChange:e=>o({indirect:e.currentTarget.checked})}),U(`indirect`)]}),W(`p`,{class:`row`,children:[W(`button`,{class:`first`,onClick:()=>void c(),children:U(`keep`)}),W(`button`,{onClick:()=>void l(),children:U(`propose`)})]})]})}function v_({clasp:e,change:t}){let n=[[`undercut_mm`,U(`undercut`),.05,.05,1],[`width_mm`,U(`rootWidth`),.1,.8,4],[`thickness_mm`,U(`rootThickness`),.05,.5,3]];return W(`fieldset`,{children:[W(`legend`,{children:U(`clasp`)}),W(`select`,{"aria-label":U(`clasp`),value:e?.form??``,onChange:n=>{let r=n.currentTarget.value;t(r?{...e??b_,form:r}:null)},children:[W(`option`,{value:``,children:U(`none`)}),er.value.clasps.map(e=>W(`option`,{value:e,children:G(e)},e))]}),e&&W(b,{children:[W(`select`,{"aria-label":U(`side`),value:e.side??`buccal`,onChange:n=>t({...e,side:n.currentTarget.value}),children:[W(`option`,{value:`buccal`,children:U(`buccal`)}),W(`option`,{value:`lingual`,children:U(`lingual`)})]}),n.map(([n,r,i,a,o])=>W(`label`,{class:`number`,children:[r,W(`input`,{type:`number`,name:n,step:i,min:a,max:o,value:e[n],onChange:r=>t({...e,[n]:r.currentTarget.valueAsNumber})}),`mm`]},n)),e.form===`circumferential`&&W(`select`,{"aria-label":U(`origin`),value:e.origin??``,onChange:n=>t({...e,origin:n.currentTarget.value||null}),children:[W(`option`,{value:``,children:U(`originFree`)}),W(`option`,{value:`mesial`,children:[U(`origin`),`: `,U(`mesial`)]}),W(`option`,{value:`distal`,children:[U(`origin`),`: `,U(`distal`)]})]}),!!e.course?.length&&W(`p`,{class:`row`,children:[U(`courseSet`),`: `,e.course.length,W(`button`,{onClick:()=>t({...e,course:[]}),children:U(`courseFree`)})]}),W(`label`,{class:`tick`,children:[W(`input`,{type:`checkbox`,checked:e.reciprocal??!0,onChange:n=>t({...e,reciprocal:n.currentTarget.checked})}),U(`reciprocal`)]})]})]})}function y_(e){return W(`fieldset`,{children:[W(`legend`,{children:e.legend}),e.all.map(t=>W(`label`,{class:`tick`,children:[W(`input`,{type:`checkbox`,checked:e.chosen.includes(t),onChange:n=>e.change(n.currentTarget.checked?[...e.chosen,t]:e.chosen.filter(e=>e!==t))}),G(t)]},t))]})}var b_={form:`circumferential`,side:`buccal`,undercut_mm:.25,width_mm:1.6,thickness_mm:1.1,reciprocal:!0,origin:null,course:[]};function x_(e){return{tooth:e,rests:[],proximal_plates:[],clasp:null,indirect:!1}}function S_(e){return[...(e.rests??[]).map(e=>`${e} rest`),...(e.proximal_plates??[]).map(e=>`${e} proximal plate`),e.clasp&&`${e.clasp.side} ${e.clasp.form}, ${e.clasp.undercut_mm} mm`,e.indirect&&`indirect retainer`].filter(Boolean).join(`, `)||`nothing`}function C_({name:e}){let t=z(``),n=z(``);F(()=>{t.value=qt.value?.sheet??``},[qt.value]);let r=async()=>{dn(await B.PUT(`/api/cases/{name}/sheet`,{params:{path:{name:e}},body:{sheet:t.value,...fn(n.value||`sheet edited`)}}))&&(n.value=``)};return W(`details`,{class:`sheet`,children:[W(`summary`,{children:U(`sheet`)}),W(`textarea`,{"aria-label":U(`sheet`),spellcheck:!1,rows:22,value:t.value,onInput:e=>t.value=e.currentTarget.value}),W(`div`,{class:`row`,children:[W(`label`,{children:[U(`reason`),` `,W(`input`,{value:n.value,onInput:e=>n.value=e.currentTarget.value})]}),W(`button`,{disabled:t.value===qt.value?.sheet,onClick:()=>void r(),children:U(`keep`)})]})]})}var w_=[`both`,`older`,`newer`,`gained`,`lost`],T_={both:[`older`,`newer`],older:[`older`],newer:[`newer`],gained:[`gained`],lost:[`lost`]},E_=.55,D_=Qe(null),O_=Qe([]),k_=Qe(null),A_=Qe(`both`),j_=0;async function M_(e,t,n){let r=++j_,i={params:{path:{name:e},query:{older:t,newer:n}}},[a,o]=await Promise.all([B.GET(`/api/cases/{name}/comparison`,i),B.GET(`/api/cases/{name}/differences`,i)]);if(r!==j_)return;if(!a.data||!o.data){V.value=Lt(a.error??o.error);return}if(O_.value=o.data.lines,k_.value=null,D_.value=a.data,!a.data.key||!a.data.made&&!await F_(e,t,n))return;let{data:s}=a.data.made?a:await B.GET(`/api/cases/{name}/comparison`,i);r===j_&&s&&(D_.value=s,await I_(e,s))}function N_(){j_++,D_.value=null,k_.value=null,O_.value=[],A_.value=`both`}function P_(e){A_.value=e,An.value=Object.fromEntries(Object.keys(An.value).map(t=>[t,T_[e].includes(t)]))}async function F_(e,t,n){let{data:r,error:i}=await B.POST(`/api/cases/{name}/comparison`,{params:{path:{name:e}},body:{older:t,newer:n}});return r?(Jt.value.has(r.id)||(Jt.value=new Map([...Jt.value,[r.id,r]])),new Promise(e=>{let t=()=>{};t=Jt.subscribe(n=>{let i=n.get(r.id)?.state;i!==`waiting`&&i!==`at work`&&(queueMicrotask(()=>t()),e(i===`done`||i===void 0))})})):(V.value=Lt(i),!1)}async function I_(e,t){let n=`/api/cases/${encodeURIComponent(e)}/comparison/${t.key}/view`,r=await je(`${n}?at=${t.view_stamp}`),i=Dn.value;if(!i||D_.value!==t)return;let a=JSON.stringify(i.scan_to_arch)===JSON.stringify(r.scan_to_arch),o=(e,t)=>e?[{at:e.at_arch_mm,text:`${t}${lr(e.mm,`mm`,H.value)}`,kind:`flag`}]:[],s=r.parts.map(e=>({...e,from:n,shown:T_[A_.value].includes(e.key),...e.with_values?{}:{through:E_}}));k_.value={...i,teeth:a?i.teeth:[],parts:s,tracks:[],components:[],base_borders:[],labels:[...o(t.gain,`+`),...o(t.loss,`−`)]}}var L_={both:`wayBoth`,older:`wayOlder`,newer:`wayNewer`,gained:`wayGained`,lost:`wayLost`},R_={came:`findingCame`,went:`findingWent`,changed:`findingChanged`};function z_({name:e}){let t=D_.value;return t?W(`section`,{class:`card comparison`,"aria-labelledby":`compared`,children:[W(`h3`,{id:`compared`,children:U(`compared`)}),W(`div`,{class:`row`,children:[W(B_,{name:e,told:t,which:`older`}),W(B_,{name:e,told:t,which:`newer`}),W(`button`,{onClick:N_,children:U(`endComparison`)})]}),!t.older_worked&&W(`p`,{class:`hint`,children:[t.older,`: `,U(`notKept`)]}),!t.newer_worked&&W(`p`,{class:`hint`,children:[t.newer,`: `,U(`notKept`)]}),t.key&&!t.made&&W(`p`,{class:`hint`,role:`status`,children:U(`comparing`)}),k_.value&&W(V_,{}),t.made&&W(H_,{told:t}),W(`h4`,{children:U(`sheet`)}),O_.value.length?W(`pre`,{class:`difference`,children:O_.value.map((e,t)=>W(`span`,{class:e.startsWith(`+`)?`added`:`taken`,children:e+`
`},t))}):W(`p`,{class:`small`,children:U(`noDifference`)})]}):null}function B_({name:e,told:t,which:n}){let r=qt.value?.revisions.revisions??[];return W(`label`,{children:[U(n===`older`?`wayOlder`:`wayNewer`),` `,W(`select`,{value:t[n],onChange:r=>{let i={older:t.older,newer:t.newer,[n]:Number(r.currentTarget.value)};M_(e,i.older,i.newer)},children:r.map(e=>W(`option`,{value:e.number,children:[e.number,` `,e.reason]},e.number))})]})}function V_(){return W(`div`,{class:`row`,role:`radiogroup`,"aria-label":U(`shownOfThem`),children:w_.map(e=>W(`button`,{role:`radio`,"aria-checked":A_.value===e,onClick:()=>P_(e),children:[e===`older`||e===`newer`?W(`span`,{class:`swatch ${e}`,"aria-hidden":`true`}):null,U(L_[e])]},e))})}function H_({told:e}){let t=(e,t)=>e===null?`—`:lr(e,t,H.value);return W(b,{children:[W(`ul`,{class:`told`,children:[[`gain`,e.gain,U(`greatestGain`)],[`loss`,e.loss,U(`greatestLoss`)]].map(([e,n,r])=>W(`li`,{"data-greatest":e,children:[r,` `,W(`b`,{children:n?t(n.mm,`mm`):U(`noDifference`)}),` `,n&&W(U_,{at:n.at_arch_mm,words:r})]},e))}),e.measures.length>0&&W(`table`,{class:`rows`,children:[W(`thead`,{children:W(`tr`,{children:[W(`th`,{children:U(`measure_`)}),W(`th`,{children:U(`wayOlder`)}),W(`th`,{children:U(`wayNewer`)})]})}),W(`tbody`,{children:e.measures.map(e=>W(`tr`,{children:[W(`td`,{children:G(e.name)}),W(`td`,{class:`figure`,children:t(e.before,e.unit)}),W(`td`,{class:`figure`,children:t(e.after,e.unit)})]},e.name))})]}),W(`h4`,{children:U(`findings`)}),e.findings.length===0&&W(`p`,{class:`small`,children:U(`noDifference`)}),W(`ul`,{class:`told`,children:e.findings.map((e,n)=>W(`li`,{class:e.severity_after??``,"data-change":e.change,"data-rule":e.rule,children:[W(`b`,{children:U(R_[e.change])}),` `,e.severity_before!==e.severity_after&&e.severity_before&&e.severity_after?`(${G(e.severity_before)} → ${G(e.severity_after)}) `:``,W($n,{text:e.text}),` `,(e.before!==null||e.after!==null)&&W(`span`,{class:`small`,children:[t(e.before,e.unit),` → `,t(e.after,e.unit)]}),` `,e.at_arch_mm&&W(U_,{at:e.at_arch_mm,words:e.text})]},n))})]})}function U_({at:e,words:t}){return W(`button`,{class:`link`,"aria-label":`${U(`show`)}: ${G(t)}`,onClick:()=>jn.value={at:e,words:t},children:U(`show`)})}function W_({name:e}){let t=qt.value?.revisions;if(!t)return null;let n=async t=>{N_(),dn(await B.POST(`/api/cases/{name}/${t}`,{params:{path:{name:e}}}))};return W(`section`,{"aria-labelledby":`trail`,children:[W(`h2`,{id:`trail`,children:U(`trail`)}),W(`div`,{class:`row`,children:[W(`button`,{disabled:!t.can_undo,onClick:()=>void n(`undo`),children:U(`undo`)}),W(`button`,{disabled:!t.can_redo,onClick:()=>void n(`redo`),children:U(`redo`)}),W(`label`,{children:[U(`author`),` `,W(`input`,{value:Qt.value,onChange:e=>en(e.currentTarget.value)})]})]}),W(`ol`,{class:`trail`,children:[...t.revisions].reverse().map((n,r,i)=>W(`li`,{"aria-current":n.number===t.at?`step`:void 0,children:[W(`span`,{class:`figure`,children:n.number}),` `,n.reason||`—`,` `,W(`span`,{class:`small`,children:[n.author,` `,fr(n.written_at,H.value)]}),i[r+1]&&W(`button`,{class:`link`,onClick:()=>void M_(e,i[r+1].number,n.number),children:U(`compare`)})]},n.number))}),W(z_,{name:e})]})}var[G_,K_,q_,J_]=[320,150,46,34];function Y_(e){let t=t=>e.lines.flatMap(e=>[...t(e)]),n=Math.max(...t(e=>e.x),1e-9),r=Math.max(...t(e=>e.y),1e-9),i=e=>lr(e,``,H.value),a=e=>q_+e/n*(G_-q_-8),o=e=>K_-J_-Math.max(e,0)/r*(K_-J_-10),s=e.lines.map(e=>`${e.name}: ${i(Math.max(...e.y,0))}`).join(`; `);return W(`figure`,{class:`curve`,children:[W(`svg`,{viewBox:`0 0 ${G_} ${K_}`,role:`img`,"aria-label":`${e.title}. ${e.up}: ${s}`,children:[[0,.5,1].map(e=>W(`g`,{children:[W(`line`,{class:`grid`,x1:q_,x2:G_-8,y1:o(e*r),y2:o(e*r)}),W(`text`,{x:q_-4,y:o(e*r)+4,"text-anchor":`end`,children:i(e*r)}),W(`text`,{x:a(e*n),y:K_-J_+14,"text-anchor":e===1?`end`:`middle`,children:i(e*n)})]},e)),e.lines.map((e,t)=>W(`path`,{class:`line l${t}`,"stroke-dasharray":e.dashed?`5 4`:void 0,d:e.x.map((t,n)=>`${n?`L`:`M`}${a(t).toFixed(1)} ${o(e.y[n]??0).toFixed(1)}`).join(``)},e.name)),W(`text`,{x:G_-8,y:K_-4,"text-anchor":`end`,children:e.across}),W(`text`,{x:q_+4,y:9,children:e.up})]}),W(`figcaption`,{class:`small`,children:[e.title,e.lines.length>1&&e.lines.map((e,t)=>W(`span`,{class:`key l${t}`,children:[` `,e.dashed?`╌╌`:`──`,` `,e.name]},e.name))]})]})}var X_=class{form;constructor(e){this.form=e}text(e){return String(this.form.get(e)??``).trim()}number(e){let t=this.text(e);return t?Number(t):null}tick(e){return this.form.get(e)===`on`}};function Z_(e){let t=z(``),n=async n=>{let{data:r,error:i}=await e.send(new X_(new FormData(n)));t.value=r?Q_(r):``,V.value=r?``:Lt(i),r&&(n.reset(),await e.done())},r=!Qt.value.trim();return W(`form`,{class:`entry`,onSubmit:e=>{e.preventDefault(),n(e.currentTarget)},children:W(`fieldset`,{class:`fields`,disabled:e.disabled,children:[e.children,W(`button`,{disabled:r,title:r?U(`nameFirst`):void 0,children:e.label}),W(`span`,{class:`small`,role:`status`,children:t.value})]})})}function Q_(e){let t=e.number;return t===void 0?`●`:`● ${U(`entered`)} ${t}`}function $_(){return W(`label`,{class:`number`,children:[!Qt.value.trim()&&W(`span`,{class:`hint`,children:U(`signFirst`)}),U(`author`),W(`input`,{value:Qt.value,onInput:e=>en(e.currentTarget.value)})]})}function ev(){return{by:Qt.value.trim()||`—`}}function tv(){return new Date().toISOString().slice(0,10)}function nv({rows:e,shows:t}){return e.length?W(`table`,{class:`rows`,children:W(`tbody`,{children:e.map((e,n)=>W(`tr`,{children:t(e).map((e,t)=>t===0?W(`th`,{scope:`row`,children:e},t):W(`td`,{children:e},t))},n))})}):null}var rv={stop:`■`,look:`◆`,note:`●`},iv=[`stop`,`look`,`note`];function av({findings:e}){if(!e.length)return W(`p`,{class:`hint`,children:U(`noFindings`)});let t=ov(e),n=t.filter(e=>sv(e[1])<2),r=t.filter(e=>sv(e[1])===2);return W(b,{children:[n.map(e=>W(cv,{group:e},e[0])),r.length>0&&W(`details`,{class:`told-notes`,children:[W(`summary`,{children:[W(lv,{rows:r.flatMap(e=>e[1])}),` `,U(`note`)]}),r.map(e=>W(cv,{group:e},e[0]))]})]})}function ov(e){let t=new Map;for(let n of e){let e=n.component||``;t.set(e,[...t.get(e)??[],n])}return[...t].sort((e,t)=>sv(e[1])-sv(t[1]))}function sv(e){return Math.min(...e.map(e=>iv.indexOf(e.severity)))}function cv({group:[e,t]}){let n=t.filter(e=>e.severity===`note`),r=iv.slice(0,2).flatMap(e=>t.filter(t=>t.severity===e)),i=t.length===1;return W(`section`,{class:`told-group`,"data-component":e,children:[W(`h3`,{children:[e||U(`whole`),` `,W(lv,{rows:t})]}),W(uv,{rows:i?t:r}),!i&&n.length>0&&W(`details`,{children:[W(`summary`,{class:`small`,children:[W(lv,{rows:n}),` `,U(`note`)]}),W(uv,{rows:n})]})]})}function lv({rows:e}){return W(`span`,{class:`told count`,children:iv.map(t=>[t,e.filter(e=>e.severity===t).length]).filter(([,e])=>e>0).map(([e,t])=>W(`span`,{class:e,children:[W(`span`,{class:`sign`,"aria-hidden":`true`,children:rv[e]}),` `,t,W(`span`,{class:`unseen`,children:[` `,G(e)]}),` `]},e))})}function uv({rows:e}){return e.length?W(`ul`,{class:`told`,children:e.map((e,t)=>W(`li`,{class:e.severity,"data-rule":e.rule,children:[W(`p`,{children:[W(`span`,{class:`sign`,"aria-hidden":`true`,children:rv[e.severity]}),` `,W(`span`,{class:`unseen`,children:[G(e.severity),`: `]}),W($n,{text:e.text})]}),W(`p`,{class:`small`,children:[U(`source`),`: `,W($n,{text:e.source})]})]},t))}):null}function dv({rows:e}){return W(`dl`,{class:`measures`,children:e.filter(([,e])=>e!=null).map(([e,t,n])=>W(`div`,{children:[W(`dt`,{children:e}),W(`dd`,{children:lr(t,n,H.value)})]},e))})}function fv({base:e,files:t}){return W(b,{children:[W(`h3`,{children:U(`files`)}),W(`ul`,{class:`files`,children:t.map(t=>W(`li`,{children:W(`a`,{href:`${e}/${encodeURIComponent(t)}`,target:`_blank`,rel:`noreferrer`,children:t})},t))})]})}var pv=23;function mv({name:e}){let t={params:{path:{name:e}}},n=z({}),r=z(`long`),i=z([]),a=z(null),o=z(25),s=z(`stone`),c=z([30,15]),l=z(null),u=z([]);F(()=>{B.GET(`/api/cases/{name}/acrylic`,t).then(({data:e})=>{e&&(n.value=e.cycles,i.value=n.value.long??[])}),d()},[e]);let d=async()=>{let{data:e}=await B.GET(`/api/cases/{name}/register`,t);u.value=(e?.entries??[]).filter(e=>e.kind===`acrylic`).map(e=>e.fields)};F(()=>{if(!i.value.length)return;let e={base_cm3:a.value,excess_percent:o.value,steps:i.value,model:s.value,bench_cool_min:c.value[0],water_cool_min:c.value[1]},n=!1;return B.POST(`/api/cases/{name}/acrylic/plan`,{...t,body:e}).then(({data:e,error:t})=>{n||(e&&(l.value=e),V.value=e?``:Lt(t))}),()=>{n=!0}},[e,a.value,o.value,i.value,s.value,c.value,qt.value?.line.standing]);let f=l.value,p=(e,t)=>lr(e,t,H.value),m=e=>{r.value=e,e in n.value&&(i.value=n.value[e])},h=(e,t)=>{r.value=`own`,i.value=i.value.map((n,r)=>r===e?{...n,...t}:n)};return W(`main`,{class:`case one`,children:[W(yr,{name:e,children:W(xr,{name:e,children:W($_,{})})}),W(`div`,{class:`ticket`,children:[W(`section`,{"aria-labelledby":`amounts`,children:[W(`h2`,{id:`amounts`,children:U(`amounts`)}),f&&f.from_run_cm3===null&&a.value===null&&W(`p`,{class:`hint`,children:U(`noBase`)}),f?.bases.map((e,t)=>W(`p`,{class:`small`,children:[e.teeth.join(`, `),`: `,p(e.acrylic_mm3/1e3,`cm³`)]},t)),W(`div`,{class:`row`,children:[W(hv,{words:U(`otherVolume`),unit:`cm³`,value:a.value,min:.1,max:200,step:.1,change:e=>a.value=e}),W(hv,{words:U(`excess`),unit:`%`,value:o.value,min:0,max:200,step:5,change:e=>o.value=e??0})]}),f?.amount&&W(dv,{rows:[[`${U(`baseVolume`)}${a.value===null?`, ${U(`ofRun`)}`:``}`,f.amount.base_cm3,`cm³`],[U(`powder`),`${p(f.amount.powder_g,`g`)} (${p(f.amount.powder_cm3,`cm³`)})`,``],[U(`liquid`),f.amount.liquid_ml,`ml`],[U(`shrinkage`),`${U(`ideal`)} ${p(f.ideal_shrinkage_percent,`%`)}, ${U(`observed`)} ${f.observed_percent.map(e=>p(e,``)).join(`–`)} %`,``]]}),W(`p`,{class:`small caution`,children:U(`makersFirst`)})]}),W(`section`,{"aria-labelledby":`curing`,children:[W(`h2`,{id:`curing`,children:U(`curing`)}),W(`div`,{class:`row`,children:[W(`label`,{class:`number`,children:[U(`cycle`),W(`select`,{value:r.value,onChange:e=>m(e.currentTarget.value),children:[...Object.keys(n.value),`own`].map(e=>W(`option`,{value:e,children:U(`cycle_${e}`)},e))})]}),W(`label`,{class:`number`,children:[U(`packedOn`),W(`select`,{value:s.value,onChange:e=>s.value=e.currentTarget.value,children:[W(`option`,{value:`stone`,children:U(`stone`)}),W(`option`,{value:`printed resin`,children:U(`printedResin`)})]})]})]}),i.value.map((e,t)=>W(`div`,{class:`row`,role:`group`,"aria-label":`${U(`bath`)} ${t+1}`,children:[W(`span`,{class:`figure`,children:t+1}),W(hv,{words:U(`bath`),unit:`°C`,value:e.bath_c,min:10,max:200,step:1,change:e=>h(t,{bath_c:e??20})}),W(hv,{words:U(`rise`),unit:`min`,value:e.rise_min,min:0,max:600,step:5,change:e=>h(t,{rise_min:e??0})}),W(hv,{words:U(`hold`),unit:`min`,value:e.minutes,min:0,max:1500,step:5,change:e=>h(t,{minutes:e??0})})]},t)),W(`div`,{class:`row`,children:[W(`button`,{onClick:()=>(r.value=`own`,i.value=[...i.value,i.value[i.value.length-1]]),disabled:i.value.length>=8,children:U(`addStep`)}),W(`button`,{onClick:()=>(r.value=`own`,i.value=i.value.slice(0,-1)),disabled:i.value.length<2,children:U(`dropStep`)}),W(hv,{words:U(`benchCool`),unit:`min`,value:c.value[0],min:0,max:600,step:5,change:e=>c.value=[e??0,c.value[1]]}),W(hv,{words:U(`waterCool`),unit:`min`,value:c.value[1],min:0,max:600,step:5,change:e=>c.value=[c.value[0],e??0]})]}),i.value.length>0&&W(`div`,{class:`bath`,children:W(Y_,{title:U(`bathCurve`),across:U(`minutesAxis`),up:`°C`,lines:[gv(i.value)]})}),f&&W(av,{findings:f.findings})]}),W(`section`,{"aria-labelledby":`packing`,children:[W(`h2`,{id:`packing`,children:U(`packing`)}),W(nv,{rows:u.value,shows:e=>[`${String(e.powder_lot)} / ${String(e.liquid_lot)}`,`${p(e.powder_g,`g`)} / ${p(e.liquid_ml,`ml`)}`,String(e.cycle??``),String(e.tooth_lot??``)]}),W(Z_,{label:U(`enter`),done:d,send:e=>B.POST(`/api/cases/{name}/acrylic`,{...t,body:{powder_lot:e.text(`powder_lot`),liquid_lot:e.text(`liquid_lot`),tooth_lot:e.text(`tooth_lot`),cycle:i.value.map(e=>`${e.bath_c} °C ${e.minutes} min`).join(`, `),base_cm3:a.value,excess_percent:o.value,...ev()}}),children:[W(`label`,{class:`number`,children:[U(`powderLot`),` `,W(`input`,{name:`powder_lot`,required:!0,maxLength:120})]}),W(`label`,{class:`number`,children:[U(`liquidLot`),` `,W(`input`,{name:`liquid_lot`,required:!0,maxLength:120})]}),W(`label`,{class:`number`,children:[U(`toothLot`),` `,W(`input`,{name:`tooth_lot`,maxLength:120})]})]})]}),W(`p`,{class:`small caution`,children:U(`caution`)})]})]})}function hv(e){return W(`label`,{class:`number`,children:[e.words,W(`input`,{type:`number`,min:e.min,max:e.max,step:e.step,value:e.value??``,onChange:t=>t.currentTarget.checkValidity()&&e.change(Number.isNaN(t.currentTarget.valueAsNumber)?null:t.currentTarget.valueAsNumber)}),e.unit]})}function gv(e){let[t,n]=[[0],[pv]];for(let r of e){let e=t[t.length-1];t.push(e+r.rise_min,e+r.rise_min+r.minutes),n.push(r.bath_c,r.bath_c)}return{name:`°C`,x:t,y:n}}var _v=[[`length_mm`,`couponLength`,60,10,120],[`width_mm`,`couponWidth`,5,1,20],[`height_mm`,`couponHeight`,3,1,10],[`legs`,`couponLegs`,12,2,60],[`leg_mm`,`couponLeg`,2.5,.5,20],[`leg_height_mm`,`couponLegHeight`,3,1,10]];function vv({name:e}){let t=z(null),n=z([`cocr-25um`]),r=hn(e)?.id;F(()=>{B.GET(`/api/builds/forms`).then(({data:e})=>e&&(n.value=e.processes))},[]),F(()=>{r||B.GET(`/api/coupon`).then(({data:e})=>e&&(t.value=e))},[r]);let i=t.value?.told,a=async t=>{let n=new FormData(t),r=e=>Number(n.get(e));ln(await B.POST(`/api/coupon`,{body:{case:e,process:String(n.get(`process`)),rise_mm:n.get(`rise_mm`)?r(`rise_mm`):null,sizes:{length_mm:r(`length_mm`),width_mm:r(`width_mm`),height_mm:r(`height_mm`),legs:r(`legs`),leg_mm:r(`leg_mm`),leg_height_mm:r(`leg_height_mm`)}}}))};return W(`details`,{class:`coupon`,children:[W(`summary`,{children:U(`coupon`)}),W(`p`,{class:`small`,children:U(`couponHow`)}),W(`form`,{class:`row`,onSubmit:e=>{e.preventDefault(),a(e.currentTarget)},children:[W(`label`,{class:`number`,children:[U(`process`),W(`select`,{name:`process`,children:n.value.map(e=>W(`option`,{value:e,children:e},e))})]}),_v.map(([e,t,n,r,i])=>W(`label`,{class:`number`,children:[U(t),W(`input`,{type:`number`,name:e,required:!0,min:r,max:i,step:e===`legs`?1:`any`,defaultValue:String(n)})]},e)),W(`label`,{class:`number`,children:[U(`couponRise`),` `,W(`input`,{type:`number`,name:`rise_mm`,min:.001,max:50,step:`any`})]}),W(`button`,{disabled:!!r,children:U(`couponAsk`)})]}),i&&W(b,{children:[W(dv,{rows:[[U(`recordStrain`),i.record_strain.toLocaleString(H.value,{maximumFractionDigits:6}),``],[U(`recordRise`),i.record_rise_mm.toLocaleString(H.value,{maximumFractionDigits:3}),`mm`],[U(`couponRise`),i.rise_mm,``],[U(`couponStrain`),i.strain?.toLocaleString(H.value,{maximumFractionDigits:6}),``]]}),W(`p`,{class:`small`,children:[i.process,`; `,i.sizes.length_mm,` × `,i.sizes.width_mm,` × `,i.sizes.height_mm,` mm, `,i.sizes.legs,` × `,i.sizes.leg_mm,` mm`]}),i.strain!=null&&W(`p`,{class:`small`,children:U(`couponEnter`)}),W(fv,{base:`/api/coupon/files`,files:t.value?.files??[]})]})]})}function yv({base:e,platform:t,layer:n}){let r=z(null),i=we(n);i.current=n,F(()=>{let t=setTimeout(()=>{je(`${e}/${n}`).then(e=>{i.current===n&&(r.value=e)},e=>V.value=String(e))},60);return()=>clearTimeout(t)},[e,n]);let[a,o]=[t.width_mm/2,t.depth_mm/2],s=e=>e.map(e=>`M${e.map(([e,t])=>`${e} ${-t}`).join(`L`)}Z`).join(``),c=r.value?.parts.reduce((e,t)=>e+t.contours_mm.length,0)??0;return W(`svg`,{class:`layer`,viewBox:`${-a-2} ${-o-2} ${2*a+4} ${2*o+4}`,role:`img`,"aria-label":`${U(`layer`)} ${n+1}: ${c} ${U(`contours`)}`,children:[t.shape===`round`?W(`ellipse`,{class:`plate`,rx:a,ry:o}):W(`rect`,{class:`plate`,x:-a,y:-o,width:2*a,height:2*o}),r.value?.parts.map((e,t)=>W(`path`,{class:e.kind,"fill-rule":`evenodd`,d:s(e.contours_mm),children:W(`title`,{children:e.name})},t))]})}var bv=[{name:`from the front, above`,toward:[.25,-.75,.6],up:[0,0,1]},{name:`from above`,toward:[0,0,1],up:[0,1,0]},{name:`from the front`,toward:[0,-1,0],up:[0,0,1]},{name:`from the right`,toward:[1,0,0],up:[0,0,1]},{name:`from below`,toward:[0,0,-1],up:[0,1,0]}];function xv({name:e}){let t=tn.value?.builds??[],n=z(``),r=t.find(e=>e.name===n.value)??t[0];return W(`main`,{class:`case`,children:[W(yr,{name:e,children:W(xr,{name:e,children:W(Sv,{name:e,first:!t.length})})}),!r&&W(`div`,{class:`ticket`,children:[W(`p`,{class:`hint`,children:U(`neverBuilt`)}),W(vv,{name:e})]}),r&&W(Cv,{name:e,build:r,choose:t.length>1&&W(`select`,{"aria-label":U(`build`),value:r.name,onChange:e=>n.value=e.currentTarget.value,children:t.map(e=>W(`option`,{value:e.name,children:[e.name,`: `,e.cases.join(`, `)]},e.name))})},r.name)]})}function Sv({name:e,first:t}){let n=z(null),r=z(`round-100`),i=z(`cocr-25um`),a=z(1),o=z([]);F(()=>{on(),B.GET(`/api/builds/forms`).then(({data:e})=>e&&(n.value=e))},[]);let s=(Kt.value??[]).filter(t=>t.mass_g!==null&&t.name!==e),c=(e,t,n)=>W(`label`,{class:`number`,children:[e,W(`select`,{value:n.value,onChange:e=>n.value=e.currentTarget.value,children:t.map(e=>W(`option`,{value:e,children:e},e))})]}),l=async()=>ln(await B.POST(`/api/builds`,{body:{cases:[e,...o.value],machine:r.value,process:i.value,orientation:a.value,layer_files:!0}}));return W(b,{children:[c(U(`machine`),n.value?.machines??[r.value],r),c(U(`process`),n.value?.processes??[i.value],i),W(`label`,{class:`number`,children:[U(`orientation`),W(`input`,{type:`number`,min:1,max:20,value:a.value,onChange:e=>a.value=e.currentTarget.valueAsNumber||1})]}),s.length>0&&W(`fieldset`,{children:[W(`legend`,{children:U(`together`)}),s.map(e=>W(`label`,{class:`tick`,children:[W(`input`,{type:`checkbox`,checked:o.value.includes(e.name),onChange:t=>o.value=t.currentTarget.checked?[...o.value,e.name]:o.value.filter(t=>t!==e.name)}),e.name]},e.name))]}),W(`button`,{class:t?`first`:``,onClick:()=>void l(),children:U(`prepareBuild`)})]})}function Cv({name:e,build:t,choose:n}){let r=`/api/builds/${t.name}`,i=z(null),a=z(0),o=z(0);F(()=>{je(`${r}/view?at=${t.view_stamp}`).then(e=>i.value=e,e=>V.value=String(e))},[r,t.view_stamp]);let s=t.told,c=i.value?.platforms[a.value],l=s.platforms[a.value],u=l?.estimate??{};F(()=>{o.value=Math.round((c?.layers??0)*.35)},[c]);let d=((o.value+1)*(c?.layer_mm??0)).toFixed(2);return W(b,{children:[W(`div`,{class:`ticket`,children:[W(`section`,{"aria-labelledby":`platform`,children:[W(`h2`,{id:`platform`,children:[t.name,t.stale.length>0&&W(`span`,{class:`look`,children:[` ◆ `,U(`stale`)]})]}),W(`div`,{class:`row`,children:[n,s.platforms.length>1&&W(`select`,{"aria-label":U(`platform`),value:a.value,onChange:e=>a.value=Number(e.currentTarget.value),children:s.platforms.map((e,t)=>W(`option`,{value:t,children:e.title},t))})]}),W(`p`,{class:`small`,children:[s.machine.title,`; `,s.process.title]}),W(dv,{rows:[[U(`time`),u.total_h,`h`],[U(`height`),u.height_mm,`mm`],[U(`layers`),u.layers,``],[U(`melted`),u.powder_melted_kg===void 0?null:1e3*u.powder_melted_kg,`g`],[U(`leastDistance`),l?.least_distance_mm,`mm`]]}),W(`table`,{class:`rows`,children:[W(`thead`,{children:W(`tr`,{children:[W(`th`,{scope:`col`,children:U(`part`)}),W(`th`,{scope:`col`,children:U(`tag`)}),W(`th`,{scope:`col`,class:`figure`,children:U(`contacts`)}),W(`th`,{scope:`col`,class:`figure`,children:U(`pathTilt`)})]})}),W(`tbody`,{children:l?.parts.map(e=>W(`tr`,{children:[W(`th`,{scope:`row`,children:e.part}),W(`td`,{children:e.tag}),W(`td`,{class:`figure`,children:e.contacts.length}),W(`td`,{class:`figure`,children:e.reference_from_vertical_deg===null?``:`${Math.round(e.reference_from_vertical_deg)}°`})]},e.part))})]})]}),c&&W(`section`,{"aria-labelledby":`layer`,children:[W(`h2`,{id:`layer`,children:[U(`layer`),` `,o.value+1,` / `,c.layers]}),W(`input`,{type:`range`,class:`wide`,"aria-label":U(`layer`),"aria-valuetext":`${o.value+1}, ${d} mm`,min:0,max:c.layers-1,value:o.value,onInput:e=>o.value=Number(e.currentTarget.value)}),W(yv,{base:`${r}/platforms/${a.value}/layers`,platform:c,layer:o.value}),W(`p`,{class:`small`,children:[U(`layerTop`),` `,d,` mm`]})]}),W(`section`,{"aria-labelledby":`findings`,children:[W(`h2`,{id:`findings`,children:U(`findings`)}),W(av,{findings:s.findings.map(e=>({...e,component:e.part}))}),W(fv,{base:`${r}/platforms/${a.value}/files`,files:Object.values(t.files)[a.value]??[]}),W(wv,{name:t.name}),W(vv,{name:e}),W(`p`,{class:`small caution`,children:U(`notValidated`)})]})]}),c&&W(n_,{view:Ev(c,r,d),stamp:t.view_stamp,tools:[`turn`]})]})}function wv({name:e}){let t=z(``),n=async n=>{let r=String(new FormData(n).get(`feedstock`)).split(`,`).map(e=>e.trim()).filter(Boolean),{data:i,error:a}=await B.POST(`/api/builds/{build}/register`,{params:{path:{build:e}},body:{by:Qt.value||`—`,feedstock:r}});t.value=i?i.parts.join(`, `):``,V.value=i?``:Lt(a)};return W(`details`,{children:[W(`summary`,{children:U(`enterToo`)}),W(`form`,{class:`row`,onSubmit:e=>{e.preventDefault(),n(e.currentTarget)},children:[W(`label`,{class:`number`,children:[U(`lots`),` `,W(`input`,{name:`feedstock`,required:!0})]}),W(`label`,{class:`number`,children:[U(`author`),` `,W(`input`,{required:!0,value:Qt.value,onInput:e=>en(e.currentTarget.value)})]}),W(`button`,{children:U(`enter`)}),t.value&&W(`span`,{role:`status`,children:[`● `,t.value]})]})]})}var Tv=new Map;function Ev(e,t,n){let r=Tv.get(e);if(r)return r;let i={arch:`mandible`,kennedy:``,path_words:``,design_words:[],parts:e.parts.map(e=>({...e,from:`${t}/view`})),tracks:e.lines.map(e=>({name:e.name,closed:!1,points:e.points})),teeth:[],spans:[],components:[],measures:[],looks:bv,scan_to_arch:null,plan:null,pictures:[]};return Tv.clear(),Tv.set(e,i),i}function Dv({name:e,now:t,done:n}){let r={params:{path:{name:e}}},i=t.revisions,a=qt.value?.line.standing,o=z(``);return W(`section`,{"aria-labelledby":`approval`,children:[W(`h2`,{id:`approval`,children:U(`approval`)}),W(`p`,{class:`small`,children:U(`approvalHow`)}),!i.length&&W(`p`,{class:`hint`,children:U(`noRevision`)}),i.length>0&&W(`table`,{class:`rows`,children:[W(`thead`,{children:W(`tr`,{children:[W(`th`,{scope:`col`,children:U(`revision`)}),W(`th`,{scope:`col`,children:U(`hash`)}),W(`th`,{scope:`col`,children:U(`answers`)})]})}),W(`tbody`,{children:i.map(e=>W(`tr`,{children:[W(`th`,{scope:`row`,children:e.id}),W(`td`,{children:W(`code`,{title:e.hash,children:e.hash.slice(0,12)})}),W(`td`,{children:[!e.answers.length&&U(`open`),e.answers.map((e,t)=>W(`p`,{class:e.approved?`note`:`look`,children:[e.approved?`● ${U(`approved`)}`:`◆ ${U(`refused`)}`,e.text&&W(`span`,{class:`small said`,children:[` `,e.text]})]},t))]})]},e.id))})]}),a===`stale`&&W(`p`,{class:`look`,children:[W(`span`,{class:`sign`,children:`◆`}),` `,U(`staleOffer`)]}),W(Z_,{label:U(`offer`),done:n,disabled:a!==`worked out`,send:()=>B.POST(`/api/cases/{name}/clinic/revisions`,{...r,body:ev()}),children:null}),i.length>0&&W(b,{children:[W(Z_,{label:U(`takeAnswer`),done:n,send:e=>B.POST(`/api/cases/{name}/clinic/answers/text`,{...r,body:{text:e.text(`text`),...ev()}}),children:W(`label`,{class:`tall`,children:[U(`pasteAnswer`),W(`textarea`,{name:`text`,rows:4,required:!0,maxLength:4e3,"aria-describedby":`paste`}),W(`span`,{id:`paste`,class:`small`,children:U(`pasteHow`)})]})}),W(`details`,{children:[W(`summary`,{children:U(`byHand`)}),W(Z_,{label:U(`enter`),done:n,send:e=>B.POST(`/api/cases/{name}/clinic/answers`,{...r,body:{revision:o.value||i[i.length-1].id,seen_hash:e.text(`seen_hash`),approved:e.text(`approved`)===`yes`,text:e.text(`text`),...ev()}}),children:[W(`select`,{"aria-label":U(`revision`),value:o.value||i[i.length-1].id,onChange:e=>o.value=e.currentTarget.value,children:i.map(e=>W(`option`,{value:e.id,children:e.id},e.id))}),W(`label`,{class:`number`,children:[U(`seenHash`),` `,W(`input`,{name:`seen_hash`,required:!0,minLength:12,maxLength:64,pattern:`[0-9A-Fa-f]+`})]}),W(`select`,{name:`approved`,"aria-label":U(`approval`),children:[W(`option`,{value:`yes`,children:U(`approved`)}),W(`option`,{value:`no`,children:U(`refused`)})]}),W(`label`,{class:`number`,children:[U(`remark`),` `,W(`input`,{name:`text`,maxLength:400})]})]})]})]})]})}var Ov=[`ground`,`relieved`,`bent`,`nothing`],kv=[`remake`,`repair`,`reline`];function Av({name:e}){let t=z(null),n={params:{path:{name:e}}},r=async()=>{let{data:e,error:r}=await B.GET(`/api/cases/{name}/clinic`,n);e?t.value=e:V.value=Lt(r)};F(()=>void r(),[e,tn.value]);let i=async()=>{let{error:e}=await B.POST(`/api/cases/{name}/register`,{...n,body:ev()});e&&(V.value=Lt(e)),await r()},a=t.value,o=e=>a?.entries[e]??[],s=(e,t)=>lr(e,t,H.value),c=e=>dr(e,H.value);return W(`main`,{class:`case one`,children:[W(yr,{name:e,children:W(xr,{name:e,children:W($_,{})})}),a&&!a.entered&&W(`div`,{class:`ticket`,children:W(`p`,{children:[U(`notEntered`),` `,W(`button`,{class:`first`,onClick:()=>void i(),children:U(`enterCase`)})]})}),a?.entered&&W(`div`,{class:`ticket`,children:[a.fields.parent_case?W(`p`,{children:[U(`parentCase`),` `,String(a.fields.parent_case),`: `,String(a.fields.reason??``)]}):null,W(Dv,{name:e,now:a,done:r}),W(`section`,{"aria-labelledby":`altered`,children:[W(`h2`,{id:`altered`,children:U(`altered`)}),a.altered_cast_unsaid&&W(`p`,{class:`look`,children:[W(`span`,{class:`sign`,children:`◆`}),` `,U(`alteredUnsaid`)]}),W(nv,{rows:o(`altered_cast`),shows:e=>[e.needed?U(`needed`):U(`notNeeded`),e.done?`${U(`doneOn`)} ${c(e.done)}`:``]}),W(Z_,{label:U(`enter`),done:r,send:e=>B.POST(`/api/cases/{name}/clinic/altered-cast`,{...n,body:{needed:e.text(`needed`)===`yes`,done:e.text(`done`)||null,...ev()}}),children:[W(`select`,{name:`needed`,"aria-label":U(`altered`),children:[W(`option`,{value:`yes`,children:U(`needed`)}),W(`option`,{value:`no`,children:U(`notNeeded`)})]}),W(`label`,{class:`number`,children:[U(`doneOn`),` `,W(`input`,{type:`date`,name:`done`})]})]})]}),W(Mv,{name:e,now:a,done:r}),W(Nv,{name:e,now:a,done:r}),W(`section`,{"aria-labelledby":`jaw`,children:[W(`h2`,{id:`jaw`,children:U(`jawRecord`)}),W(nv,{rows:o(`jaw_record`),shows:e=>[c(e.made),e.wax_rims?U(`waxRims`):``,s(e.vertical_mm,`mm`),String(e.text??``)]}),W(Z_,{label:U(`enter`),done:r,send:e=>B.POST(`/api/cases/{name}/clinic/jaw-records`,{...n,body:{made:e.text(`made`),part:e.text(`part`),wax_rims:e.tick(`wax_rims`),vertical_mm:e.number(`vertical_mm`),text:e.text(`text`),...ev()}}),children:[W(`label`,{class:`number`,children:[U(`on`),` `,W(`input`,{type:`date`,name:`made`,required:!0,defaultValue:tv()})]}),W(Pv,{now:a,optional:!0}),W(`label`,{class:`tick`,children:[W(`input`,{type:`checkbox`,name:`wax_rims`,defaultChecked:!0}),` `,U(`waxRims`)]}),W(`label`,{class:`number`,children:[U(`vertical`),` `,W(`input`,{type:`number`,name:`vertical_mm`,step:`0.5`,min:`1`,max:`200`}),` mm`]}),W(Iv,{})]})]}),W(`section`,{"aria-labelledby":`teeth`,children:[W(`h2`,{id:`teeth`,children:U(`teethCard`)}),W(Z_,{label:U(`enter`),done:r,send:e=>B.POST(`/api/cases/{name}/clinic/teeth`,{...n,body:{teeth:e.text(`teeth`),tooth_mould:e.text(`tooth_mould`),shade:e.text(`shade`),gum_shade:e.text(`gum_shade`),...ev()}}),children:[[`teeth`,U(`toSet`),a.teeth.join(`, `)],[`tooth_mould`,U(`mould`),``],[`shade`,U(`shade`),``],[`gum_shade`,U(`gumShade`),``]].map(([e,t,n])=>W(`label`,{class:`number`,children:[t,` `,W(`input`,{name:e,maxLength:200,defaultValue:String(a.fields[e]??n)})]},`${e}${String(a.fields[e]??``)}`))})]}),W(`section`,{"aria-labelledby":`delivery`,children:[W(`h2`,{id:`delivery`,children:U(`delivery`)}),W(nv,{rows:o(`delivery`),shows:e=>[c(e.delivered),e.fits?U(`fits`):W(`span`,{class:`look`,children:[`◆ `,U(`fitsNot`)]}),s(e.minutes,`min`),String(e.text??``)]}),W(Z_,{label:U(`enter`),done:r,send:e=>B.POST(`/api/cases/{name}/clinic/deliveries`,{...n,body:{delivered:e.text(`delivered`),fits:e.tick(`fits`),minutes:e.number(`minutes`),text:e.text(`text`),...ev()}}),children:[W(`label`,{class:`number`,children:[U(`on`),` `,W(`input`,{type:`date`,name:`delivered`,required:!0,defaultValue:tv()})]}),W(`label`,{class:`tick`,children:[W(`input`,{type:`checkbox`,name:`fits`,defaultChecked:!0}),` `,U(`fits`)]}),W(Fv,{}),W(Iv,{})]})]}),W(`section`,{"aria-labelledby":`recall`,children:[W(`h2`,{id:`recall`,children:U(`followUp`)}),W(nv,{rows:o(`follow_up`),shows:e=>[c(e.seen),[e.worn?U(`worn`):U(`notWorn`),e.retains===!1?U(`loose`):U(`retains`),...[`sore`,`fracture`,`relined`].filter(t=>e[t]).map(e=>U(e))].join(`, `),String(e.text??``)]}),W(Z_,{label:U(`enter`),done:r,send:t=>jv(e,t),children:[W(`label`,{class:`number`,children:[U(`on`),` `,W(`input`,{type:`date`,name:`seen`,required:!0,defaultValue:tv()})]}),[[`worn`,!0],[`retains`,!0],[`sore`,!1],[`fracture`,!1],[`relined`,!1]].map(([e,t])=>W(`label`,{class:`tick`,children:[W(`input`,{type:`checkbox`,name:e,defaultChecked:t}),` `,U(e)]},e)),W(Iv,{})]})]}),W(`section`,{"aria-labelledby":`back`,children:[W(`h2`,{id:`back`,children:U(`back_`)}),W(`p`,{class:`small`,children:U(`backHow`)}),W(nv,{rows:o(`case`),shows:e=>[`${U(`children`)} ${String(e.id)}`,kv.includes(e.work)?U(e.work):``,String(e.reason??``)]}),W(Z_,{label:U(`takeIn`),done:r,send:e=>B.POST(`/api/cases/{name}/clinic/back`,{...n,body:{id:e.text(`id`),work:e.text(`work`),reason:e.text(`reason`),...ev()}}),children:[W(`select`,{name:`work`,"aria-label":U(`kind`),children:kv.map(e=>W(`option`,{value:e,children:U(e)},e))}),W(`label`,{class:`number`,children:[U(`newId`),` `,W(`input`,{name:`id`,required:!0,maxLength:120})]}),W(`label`,{class:`number`,children:[U(`cause`),` `,W(`input`,{name:`reason`,required:!0,maxLength:400})]})]})]}),W(`p`,{class:`small caution`,children:U(`caution`)})]})]})}function jv(e,t){return B.POST(`/api/cases/{name}/clinic/follow-ups`,{params:{path:{name:e}},body:{seen:t.text(`seen`),worn:t.tick(`worn`),retains:t.tick(`retains`),sore:t.tick(`sore`),fracture:t.tick(`fracture`),relined:t.tick(`relined`),text:t.text(`text`),...ev()}})}function Mv({name:e,now:t,done:n}){let r=t.entries.adjustment??[],i=(e,t)=>lr(e,t,H.value),a=r.reduce((e,t)=>e+Number(t.amount_um),0);return W(`section`,{"aria-labelledby":`tryin`,children:[W(`h2`,{id:`tryin`,children:U(`tryIn`)}),W(`p`,{class:`small`,children:U(`tryInHow`)}),W(nv,{rows:r,shows:e=>[String(e.place),i(e.amount_um,`um`),Ov.includes(e.how)?U(e.how):``,e.seated===!1?W(`span`,{class:`look`,children:[`◆ `,U(`doesNotSeat`)]}):U(`seatsNow`),i(e.minutes,`min`),String(e.text??``)]}),r.length>1&&W(`p`,{class:`small`,children:[U(`total`),` `,i(a,`um`)]}),!t.parts.length&&W(`p`,{class:`hint`,children:U(`noParts`)}),W(Z_,{label:U(`enter`),done:n,disabled:!t.parts.length,send:t=>B.POST(`/api/cases/{name}/clinic/try-ins`,{params:{path:{name:e}},body:{part:t.text(`part`),place:t.text(`place`),amount_um:t.number(`amount_um`)??0,how:t.text(`how`),seated:t.tick(`seated`),minutes:t.number(`minutes`),text:t.text(`text`),...ev()}}),children:[W(Pv,{now:t}),W(`label`,{class:`number`,children:[U(`where`),` `,W(`input`,{name:`place`,required:!0,list:`places`,maxLength:120})]}),W(`datalist`,{id:`places`,children:t.places.map(e=>W(`option`,{value:e},e))}),W(`label`,{class:`number`,children:[U(`takenAway`),` `,W(`input`,{type:`number`,name:`amount_um`,min:`0`,max:`5000`,step:`5`,required:!0}),` µm`]}),W(`select`,{name:`how`,"aria-label":U(`how`),children:Ov.map(e=>W(`option`,{value:e,children:U(e)},e))}),W(`label`,{class:`tick`,children:[W(`input`,{type:`checkbox`,name:`seated`,defaultChecked:!0}),` `,U(`seatsNow`)]}),W(Fv,{}),W(Iv,{})]})]})}function Nv({name:e,now:t,done:n}){let r=t.places.filter(e=>e.startsWith(`rest.`)),i=(e,t)=>lr(e,t,H.value),a=Object.entries(t.changes);return W(`section`,{"aria-labelledby":`film`,children:[W(`h2`,{id:`film`,children:U(`film`)}),W(`p`,{class:`small`,children:U(`filmHow`)}),Object.entries(t.film_off_um).map(([e,t])=>W(nv,{rows:Object.entries(t).map(([e,t])=>({area:e,off:t})),shows:e=>[String(e.area),`${U(`filmOff`)} ${i(e.off,`um`)}`]},e)),W(Z_,{label:U(`enter`),done:n,disabled:!t.parts.length||!r.length,send:t=>{let n=r.map(e=>[e,t.number(e)]).filter(([,e])=>e!==null);return B.POST(`/api/cases/{name}/clinic/films`,{params:{path:{name:e}},body:{part:t.text(`part`),gaps_um:Object.fromEntries(n),...ev()}})},children:[W(Pv,{now:t}),r.map(e=>W(`label`,{class:`number`,children:[e,` `,W(`input`,{type:`number`,name:e,min:`0`,max:`5000`,step:`1`}),` µm`]},e))]}),a.length>0&&W(`details`,{children:[W(`summary`,{children:U(`throughInspections`)}),a.map(([e,t])=>W(nv,{rows:t,shows:e=>[`${String(e.what)} ${String(e.name).replace(`_um`,``).replaceAll(`_`,` `)}`,e.values.map(e=>i(e,`um`)).join(` → `)]},e))]})]})}function Pv({now:e,optional:t=!1}){return W(`select`,{name:`part`,"aria-label":U(`framework`),children:[t&&W(`option`,{value:``,children:[U(`framework`),`: `,U(`none`)]}),e.parts.map(e=>W(`option`,{value:e,children:e},e))]})}function Fv(){return W(`label`,{class:`number`,children:[W(`input`,{type:`number`,name:`minutes`,min:`0`,max:`600`,step:`1`}),` `,U(`minutes`)]})}function Iv(){return W(`label`,{class:`number`,children:[U(`remark`),` `,W(`input`,{name:`text`,maxLength:400})]})}function Lv(e){return tn.value?.stages.find(t=>t.stage===e)}function Rv({name:e,stage:t}){let n=Lv(t)?.view_stamp??``,r=`/api/cases/${encodeURIComponent(e)}/stages/${t}/view`,i=z(null),a=Dn.value;return F(()=>{!n||!a?i.value=null:je(`${r}?at=${n}`).then(e=>i.value=Me(a,e,r),e=>V.value=String(e))},[r,n,a]),i.value?W(n_,{view:i.value,stamp:n,tools:[`turn`,`measure`,`section`]}):null}function zv({name:e}){let t=Lv(`scans`),n=t?.answers.scans,r=(e,t)=>lr(e,t,H.value),i=`/api/cases/${encodeURIComponent(e)}`;return W(`section`,{"aria-labelledby":`other-scan`,children:[W(`h2`,{id:`other-scan`,children:[U(`otherScan`),` `,t?.stale&&W(`span`,{class:`look small`,children:[`◆ `,U(`stale`)]})]}),W(`p`,{class:`small`,children:U(`otherScanHow`)}),W(`form`,{class:`row`,onSubmit:e=>{e.preventDefault(),un(`${i}/scans`,new FormData(e.currentTarget))},children:[W(`label`,{class:`number`,children:[U(`otherScan`),` `,W(`input`,{type:`file`,name:`scan`,accept:`.stl,.ply,.obj,.3mf,.dcm`,required:!0})]}),W(`button`,{disabled:!!hn(e),children:U(`compareScans`)})]}),n&&W(b,{children:[W(`h3`,{children:n.scan}),W(dv,{rows:[[U(`overlap`),100*n.overlap_share,`%`],[U(`rms`),n.rms_mm,`mm`],[U(`p95`),n.p95_mm,`mm`],[U(`changeLimit`),n.change_limit_mm,`mm`],[U(`changedTeeth`),n.changed_teeth.join(`, `)||`–`,``]]}),W(`details`,{open:n.changed_teeth.length>0,children:[W(`summary`,{children:U(`byTooth`)}),W(`table`,{class:`rows`,children:[W(`thead`,{children:W(`tr`,{children:[W(`th`,{scope:`col`,children:U(`tooth`)}),W(`th`,{scope:`col`,class:`figure`,children:U(`rms`)}),W(`th`,{scope:`col`,class:`figure`,children:U(`p95`)}),W(`th`,{scope:`col`,class:`figure`,children:U(`greatest`)}),W(`th`,{scope:`col`,class:`figure`,children:U(`changedArea`)})]})}),W(`tbody`,{children:n.teeth.map(e=>W(`tr`,{children:[W(`th`,{scope:`row`,children:e.tooth}),W(`td`,{class:`figure`,children:r(e.rms_mm,`mm`)}),W(`td`,{class:`figure`,children:r(e.p95_mm,`mm`)}),W(`td`,{class:`figure`,children:r(e.greatest_mm,`mm`)}),W(`td`,{class:`figure`,children:r(e.changed_mm2,`mm2`)})]},e.tooth))})]})]}),W(av,{findings:n.findings}),W(fv,{base:`${i}/stages/scans/files`,files:t?.files??[]})]})]})}var Bv=(e,t)=>`/api/cases/${encodeURIComponent(e)}/stages/${t}/files`;function Vv({fields:e}){return W(`details`,{children:[W(`summary`,{children:U(`enterToo`)}),W(`div`,{class:`row`,children:[e.map(([e,t])=>W(`label`,{class:`number`,children:[t,` `,W(`input`,{name:e})]},e)),W(`label`,{class:`number`,children:[U(`author`),` `,W(`input`,{name:`by`,value:Qt.value,onInput:e=>en(e.currentTarget.value)})]})]})]})}function Hv({name:e}){let t=Lv(`furnace`),n=t?.answers.run,r=z([]);return F(()=>{B.GET(`/api/builds/forms`).then(({data:e})=>e&&(r.value=e.schedules))},[]),W(`main`,{class:`case one`,children:[W(yr,{name:e,children:W(xr,{name:e,children:W(`form`,{class:`row`,onSubmit:t=>{t.preventDefault(),un(`/api/cases/${encodeURIComponent(e)}/furnace`,new FormData(t.currentTarget))},children:[W(`label`,{class:`number`,children:[U(`log`),` `,W(`input`,{type:`file`,name:`log`,accept:`.csv,.txt`,required:!0})]}),W(`label`,{class:`number`,children:[U(`schedule`),W(`select`,{name:`wanted`,children:r.value.map(e=>W(`option`,{value:e,children:e},e))})]}),W(Vv,{fields:[[`builds`,U(`builds`)],[`run`,U(`id`)],[`instrument`,U(`instrument`)]]}),W(`button`,{class:t?.done?``:`first`,children:U(`judge`)})]})})}),W(`div`,{class:`ticket`,children:[!n&&W(`p`,{class:`hint`,children:U(`neverRun`)}),n&&W(`section`,{"aria-labelledby":`run`,children:[W(`h2`,{id:`run`,children:[W(`span`,{class:n.passed?`note`:`stop`,children:[n.passed?`● `:`■ `,n.passed?U(`passed`):U(`failed`)]}),` `,W(`span`,{class:`small`,children:[n.log,`, `,n.schedule]})]}),W(dv,{rows:[[U(`purge`),n.purge_min,`min`],[U(`ramp`),n.ramp_c_per_h,`°C/h`],[U(`highest`),n.highest_c,`°C`],[U(`soak`),n.soak_min,`min`],[U(`soakMean`),n.soak_mean_c,`°C`],[U(`cooling`),n.cooling_c_per_h,`°C/h`],[U(`unloading`),n.last_c,`°C`]]}),W(`img`,{class:`plot`,src:`${Bv(e,`furnace`)}/run.png`,alt:`${U(`furnace`)}: ${U(`highest`)} ${n.highest_c} °C, ${U(`soak`)} ${n.soak_min} min`}),W(av,{findings:n.findings}),W(fv,{base:Bv(e,`furnace`),files:t?.files??[]})]}),W(`p`,{class:`small caution`,children:U(`caution`)})]})]})}function Uv({name:e}){let t=Lv(`inspection`),n=t?.answers.fit,r=t?.answers.seat,i=(e,t)=>lr(e,t,H.value);return W(`main`,{class:`case`,children:[W(yr,{name:e,children:W(xr,{name:e,children:[t?.stale&&W(`span`,{class:`hint`,children:U(`stale`)}),W(`form`,{class:`row`,onSubmit:t=>{t.preventDefault(),un(`/api/cases/${encodeURIComponent(e)}/inspection`,new FormData(t.currentTarget))},children:[W(`label`,{class:`number`,children:[U(`metalScan`),` `,W(`input`,{type:`file`,name:`scan`,accept:`.stl,.ply,.obj,.3mf,.dcm`,required:!0})]}),W(Vv,{fields:[[`part`,U(`frameworkId`)],[`instrument`,U(`instrument`)]]}),W(`button`,{class:t?.done?``:`first`,children:U(`inspect`)})]})]})}),W(`div`,{class:`ticket`,children:[!n&&W(`p`,{class:`hint`,children:U(`neverInspected`)}),n&&W(`section`,{"aria-labelledby":`fit`,children:[W(`h2`,{id:`fit`,children:[U(`deviation`),` `,W(`span`,{class:`small`,children:n.scan})]}),W(dv,{rows:[[U(`trueness`),n.bias_um,`um`],[U(`meanAbs`),n.mean_abs_um,`um`],[U(`rms`),n.rms_um,`um`],[U(`p95`),n.p95_um,`um`],[U(`overlap`),100*n.overlap_share,`%`]]}),W(`p`,{class:`small`,children:U(`signHow`)})]}),r&&W(`section`,{"aria-labelledby":`seat`,children:[W(`h2`,{id:`seat`,children:U(`seating`)}),W(dv,{rows:[[U(`tilt`),r.tilt_deg,`deg`],[U(`rocks`),Math.max(0,...r.rocking.map(e=>e.play_um)),`um`]]}),W(`table`,{class:`rows`,children:[W(`thead`,{children:W(`tr`,{children:[W(`th`,{scope:`col`,children:U(`rest`)}),W(`th`,{scope:`col`,class:`figure`,children:U(`gap`)}),W(`th`,{scope:`col`,class:`figure`,children:`± 2 s`}),W(`th`,{scope:`col`,class:`figure`,children:U(`highest`)})]})}),W(`tbody`,{children:r.rests.map(e=>W(`tr`,{children:[W(`th`,{scope:`row`,children:e.name}),W(`td`,{class:`figure`,children:i(e.mean_gap_um,`um`)}),W(`td`,{class:`figure`,children:i(2*e.uncertainty_um,`um`)}),W(`td`,{class:`figure`,children:i(e.highest_gap_um,`um`)})]},e.name))})]})]}),n&&r&&W(`section`,{"aria-labelledby":`findings`,children:[W(`h2`,{id:`findings`,children:U(`findings`)}),W(av,{findings:[...n.findings,...r.findings]}),W(fv,{base:Bv(e,`inspection`),files:t?.files??[]})]}),W(`p`,{class:`small caution`,children:U(`caution`)})]}),W(Rv,{name:e,stage:`inspection`})]})}function Wv({name:e}){let t=Lv(`preparation`),n=Lv(`survey`),r=!!Dn.value&&!!Lv(`scans`)?.view_stamp,i=t?.answers.preparation,a=(e,t)=>lr(e,t,H.value),o=async()=>ln(await B.POST(`/api/cases/{name}/preparation`,{params:{path:{name:e}}}));return W(`main`,{class:r?`case`:`case one`,children:[W(yr,{name:e,children:W(xr,{name:e,children:W(`button`,{class:t?.done?``:`first`,onClick:()=>void o(),children:U(`readPreparation`)})})}),W(`div`,{class:`ticket`,children:[!i&&W(`p`,{class:`hint`,children:U(`neverPrepared`)}),i&&W(`section`,{"aria-labelledby":`asks`,children:[W(`h2`,{id:`asks`,children:U(`asks`)}),W(`p`,{class:`small`,children:[U(`path`),`: `,W($n,{text:i.path})]}),i.asks.length===0&&W(`p`,{children:U(`nothingToReduce`)}),W(`ul`,{children:i.asks.map(e=>W(`li`,{children:W($n,{text:e})},e))}),W(`table`,{class:`rows`,children:[W(`thead`,{children:W(`tr`,{children:[W(`th`,{scope:`col`,children:U(`tooth`)}),W(`th`,{scope:`col`,children:U(`place`)}),W(`th`,{scope:`col`,class:`figure`,children:U(`measured`)}),W(`th`,{scope:`col`,class:`figure`,children:U(`reduce`)})]})}),W(`tbody`,{children:[i.seats.map(e=>W(`tr`,{children:[W(`th`,{scope:`row`,children:e.tooth}),W(`td`,{children:[G(e.where),`, `,U(`rest`)]}),W(`td`,{class:`figure`,children:[a(e.depth_mm,`mm`),` × `,a(e.width_mm,`mm`)]}),W(`td`,{class:`figure`,children:a(e.reduce_mm,`mm`)})]},`s${e.tooth}${e.where}`)),i.guiding_planes.map(e=>W(`tr`,{children:[W(`th`,{scope:`row`,children:e.tooth}),W(`td`,{children:[G(e.where),`, `,U(`guidingPlane`)]}),W(`td`,{class:`figure`,children:[a(e.height_mm,`mm`),`, `,a(e.area_mm2,`mm2`)]}),W(`td`,{class:`figure`,children:a(e.reduce_mm,`mm`)})]},`g${e.tooth}${e.where}`))]})]}),W(fv,{base:Bv(e,`preparation`),files:t?.files??[]})]}),W(`section`,{"aria-labelledby":`survey`,children:[W(`h2`,{id:`survey`,children:U(`surveyed`)}),W(`p`,{class:`small`,children:U(`surveyHow`)}),W(`p`,{children:W(`button`,{disabled:!!hn(e),onClick:()=>void B.POST(`/api/cases/{name}/survey`,{params:{path:{name:e}}}).then(ln),children:U(`surveyIt`)})}),n?.done&&W(fv,{base:Bv(e,`survey`),files:n.files})]}),W(zv,{name:e}),W(`section`,{"aria-labelledby":`rescan`,children:[W(`h2`,{id:`rescan`,children:U(`rescan`)}),W(`p`,{class:`small`,children:U(`rescanHow`)}),W(`form`,{class:`row`,onSubmit:t=>{t.preventDefault(),un(`/api/cases/${encodeURIComponent(e)}/rescan`,new FormData(t.currentTarget))},children:[W(`label`,{class:`number`,children:[U(`master`),` `,W(`input`,{type:`file`,name:`scan`,accept:`.stl,.ply,.obj,.3mf,.dcm`,required:!0})]}),W(`label`,{class:`number`,children:[U(`newName`),` `,W(`input`,{name:`new_case`,required:!0,maxLength:64,defaultValue:`${e}-2`})]}),W(`button`,{children:U(`takeIn`)})]})]})]}),r&&W(Rv,{name:e,stage:`scans`})]})}var Gv=[`name`,`address`,`responsible`,`country`,`registration`,`phone`];function Kv({name:e}){let t=Lv(`papers`),n=z(null),r={params:{path:{name:e}}},i=async()=>{let{data:e,error:t}=await B.GET(`/api/cases/{name}/register`,r);e?n.value=e:V.value=Lt(t)};F(()=>void i(),[e,tn.value]);let a=()=>({by:Qt.value||`—`}),o=async e=>{let{error:t}=await B.POST(`/api/cases/{name}/${e}`,{...r,body:a()});t&&(V.value=Lt(t)),await i()},s=async()=>ln(await B.POST(`/api/cases/{name}/papers`,{...r,body:a()})),c=n.value,l=!Qt.value.trim();return W(`main`,{class:`case one`,children:[W(yr,{name:e,children:W(xr,{name:e,children:[W(`label`,{class:`number`,children:[U(`author`),W(`input`,{value:Qt.value,onInput:e=>en(e.currentTarget.value)})]}),W(`button`,{disabled:l||!c?.entered,onClick:()=>void s(),children:U(`writePapers`)})]})}),W(`div`,{class:`ticket`,children:[W(`section`,{"aria-labelledby":`standing`,children:[W(`h2`,{id:`standing`,children:U(`mayLeave`)}),c?.sent&&W(`p`,{class:`note`,children:[`● `,U(`sent`),` `,fr(c.sent,H.value)]}),c&&!c.entered&&W(`p`,{children:[U(`notEntered`),` `,W(`button`,{class:`first`,disabled:l,onClick:()=>void o(`register`),children:U(`enterCase`)})]}),c?.entered&&!c.sent&&W(b,{children:[c.stops.length===0&&W(`p`,{children:U(`nothingOpen`)}),W(`ul`,{class:`told`,children:c.stops.map(e=>W(`li`,{class:`stop`,children:W(`p`,{children:[W(`span`,{class:`sign`,children:`■`}),` `,W($n,{text:e})]})},e))}),W(`button`,{class:`first`,disabled:l||c.stops.length>0,onClick:()=>void o(`dispatch`),children:U(`send`)})]}),l&&W(`p`,{class:`hint`,children:U(`nameFirst`)})]}),(t?.files.length??0)>0&&W(fv,{base:`/api/cases/${encodeURIComponent(e)}/stages/papers/files`,files:t.files}),W(qv,{held:c,done:i}),W(Xv,{}),W(`p`,{class:`small caution`,children:U(`caution`)})]})]})}function qv({held:e,done:t}){let n=z({}),r=z(`part`);F(()=>{B.GET(`/api/register/kinds`).then(({data:e})=>e&&(n.value=e.kinds))},[]);let i=n.value[r.value]??{},a=async e=>{let n=new FormData(e),a={};for(let[e,t]of[...Object.entries(i.needed??{}),...Object.entries(i.optional??{})]){let r=String(n.get(`field.${e}`)??``).trim();r&&(a[e]=Yv(r,t))}let{error:o}=await B.POST(`/api/register/entries`,{body:{kind:r.value,id:String(n.get(`id`)),fields:a,by:Qt.value||`—`}});o?V.value=Lt(o):(V.value=``,await t())};return W(`section`,{"aria-labelledby":`entries`,children:[W(`h2`,{id:`entries`,children:U(`register`)}),W(`table`,{class:`rows`,children:W(`tbody`,{children:e?.entries.map(e=>W(`tr`,{children:[W(`th`,{scope:`row`,children:e.kind.replace(`_`,` `)}),W(`td`,{children:e.id}),W(`td`,{class:`small`,children:Object.entries(e.fields).map(([e,t])=>`${e}: ${typeof t==`object`?JSON.stringify(t):String(t).slice(0,40)}`).join(`, `)})]},e.kind+e.id))})}),W(`details`,{children:[W(`summary`,{children:U(`newEntry`)}),W(`form`,{class:`new`,onSubmit:e=>{e.preventDefault(),a(e.currentTarget)},children:[W(`label`,{children:[U(`kind`),W(`select`,{value:r.value,onChange:e=>r.value=e.currentTarget.value,children:Object.keys(n.value).map(e=>W(`option`,{value:e,children:e.replace(`_`,` `)},e))})]}),W(`label`,{children:[U(`id`),` `,W(`input`,{name:`id`,required:!0,maxLength:120})]}),[`needed`,`optional`].flatMap(e=>Object.entries(i[e]??{}).map(([t,n])=>W(`label`,{children:[W(`span`,{children:[t.replaceAll(`_`,` `),` `,e===`needed`&&`*`,` `,W(`span`,{class:`small`,children:Jv[n]})]}),W(`input`,{name:`field.${t}`,required:e===`needed`})]},r.value+t))),W(`p`,{children:W(`button`,{children:U(`enter`)})})]})]})]})}var Jv={float:`1.5`,bool:`true / false`,list:`a, b`,dict:`{…}`,str:``};function Yv(e,t){if(t===`float`)return Number(e.replace(`,`,`.`));if(t===`bool`)return e===`true`;if(e.startsWith(`[`)||e.startsWith(`{`))try{return JSON.parse(e)}catch{return e}return t===`list`?e.split(`,`).map(e=>e.trim()):e}function Xv(){let e=z(null);F(()=>{B.GET(`/api/laboratory`).then(({data:t})=>t&&(e.value=t))},[]);let t=e.value;if(!t)return null;let n=async n=>{let r=new FormData(n),i={...t,...Object.fromEntries(Gv.map(e=>[e,String(r.get(e)??``)]))},{data:a,error:o}=await B.PUT(`/api/laboratory`,{body:i});a?e.value=a:V.value=Lt(o)};return W(`details`,{open:!t.name,children:[W(`summary`,{children:[U(`laboratory`),`: `,t.name||U(`none`)]}),W(`form`,{class:`new`,onSubmit:e=>{e.preventDefault(),n(e.currentTarget)},children:[Gv.map(e=>W(`label`,{children:[U(`lab_${e}`),W(`input`,{name:e,defaultValue:t[e],required:e===`name`||e===`address`})]},e)),W(`p`,{children:W(`button`,{children:U(`keepParticulars`)})})]})]})}var Zv=[[`length_mm`,`armLength`,`12`,.1,200],[`radius_mm`,`armRadius`,`0.8`,.01,200],[`tip_ratio`,`armTaper`,`0.5`,.01,1],[`arc_deg`,`armArc`,`0`,0,180],[`undercut_mm`,`armUndercut`,`0.25`,.001,200],[`convergence_deg`,`armSlope`,``,0,89.9],[`friction`,`armFriction`,``,0,2]];function Qv(){let e=z([]),t=z(null);F(()=>{B.GET(`/api/arm/alloys`).then(({data:t})=>t&&(e.value=t))},[]);let n=async e=>{let n=new FormData(e),r=e=>Number(n.get(e)),i=e=>n.get(e)?r(e):null,{data:a,error:o}=await B.POST(`/api/arm`,{body:{length_mm:r(`length_mm`),radius_mm:r(`radius_mm`),undercut_mm:r(`undercut_mm`),alloy:String(n.get(`alloy`)),tip_ratio:r(`tip_ratio`),arc_deg:r(`arc_deg`),convergence_deg:i(`convergence_deg`),friction:i(`friction`)}});t.value=a??null,V.value=a?``:Lt(o)},r=t.value;return W(`details`,{class:`single-arm`,children:[W(`summary`,{children:U(`singleArm`)}),W(`p`,{class:`small`,children:U(`singleArmHow`)}),W(`form`,{class:`row`,onSubmit:e=>{e.preventDefault(),n(e.currentTarget)},children:[Zv.map(([e,t,n,r,i])=>W(`label`,{class:`number`,children:[U(t),W(`input`,{type:`number`,name:e,required:n!==``,min:r,max:i,step:`any`,defaultValue:n})]},e)),W(`label`,{class:`number`,children:[U(`alloy`),W(`select`,{name:`alloy`,children:e.value.map(e=>W(`option`,{value:e.name,children:e.name},e.name))})]}),W(`button`,{children:U(`armAsk`)})]}),r&&W(b,{children:[W(dv,{rows:[[U(`armForce`),r.force_n,`N`],[U(`peakStress`),r.peak_stress_mpa,`MPa`],[U(`armPeakAt`),r.peak_at_mm,`mm`],[U(`withdrawal`),r.withdrawal_n,`N`],[U(`modulus`),r.modulus_mpa,`MPa`]]}),W(`p`,{class:`small`,children:[U(`source`),`: `,W($n,{text:r.source})]}),W(`p`,{class:`small`,children:[U(`modulus`),`: `,W($n,{text:r.modulus_source})]}),W(`p`,{class:`small caution`,children:W($n,{text:r.caution})})]})]})}function $v({name:e}){let t=Lv(`proof`),n=t?.answers.check,r=z(!1),i=async()=>ln(await B.POST(`/api/cases/{name}/proof`,{params:{path:{name:e}},body:{elements_mm:r.value?.3:null}})),a=(e,t)=>lr(e,t,H.value);return W(`main`,{class:`case`,children:[W(yr,{name:e,children:W(xr,{name:e,children:[t?.stale&&W(`span`,{class:`hint`,children:U(`stale`)}),W(`label`,{class:`tick`,children:[W(`input`,{type:`checkbox`,checked:r.value,onChange:e=>r.value=e.currentTarget.checked}),U(`withStress`)]}),W(`button`,{class:t?.done&&!t.stale?``:`first`,disabled:qt.value?.line.standing===`sheet has errors`,onClick:()=>void i(),children:U(`prove`)})]})}),W(`div`,{class:`ticket`,children:[!n&&W(`p`,{class:`hint`,children:U(`neverProved`)}),n?.denture&&W(`section`,{"aria-labelledby":`lifting`,children:[W(`h2`,{id:`lifting`,children:U(`lifting`)}),W(dv,{rows:[[U(`leastLift`),n.denture.least_lifting_n,`N`],[U(`withoutIndirect`),n.denture.without_indirect_n,`N`],[U(`liftsAbout`),n.denture.lifts_about.join(`, `),``]]})]}),n&&W(`section`,{"aria-labelledby":`arms`,children:[W(`h2`,{id:`arms`,children:U(`arms`)}),W(`table`,{class:`rows`,children:[W(`thead`,{children:W(`tr`,{children:[W(`th`,{scope:`col`,children:U(`tooth`)}),W(`th`,{scope:`col`,class:`figure`,children:U(`withdrawal`)}),W(`th`,{scope:`col`,class:`figure`,children:U(`range`)}),W(`th`,{scope:`col`,class:`figure`,children:U(`peakStress`)}),W(`th`,{scope:`col`,class:`figure`,children:U(`fatigue`)})]})}),W(`tbody`,{children:n.arms.map(e=>W(`tr`,{children:[W(`th`,{scope:`row`,title:e.component,children:e.tooth}),W(`td`,{class:`figure`,children:a(e.withdrawal_n,`N`)}),W(`td`,{class:`figure`,children:[a(e.withdrawal_low_n,``),`–`,a(e.withdrawal_high_n,`N`)]}),W(`td`,{class:`figure`,children:a(e.peak_stress_mpa,`MPa`)}),W(`td`,{class:`figure`,children:a(e.goodman_factor,``)})]},e.component))})]}),W(`div`,{class:`curves`,children:n.arms.map(e=>W(`div`,{children:[W(Y_,{title:`${e.tooth}: ${U(`withdrawal`)}, ${U(`insertion`)}`,across:U(`liftMm`),up:`N`,lines:[{name:U(`withdrawal`),x:e.curve.lift_mm,y:e.curve.withdrawal_n},{name:U(`insertion`),x:e.curve.lift_mm,y:e.curve.insertion_n,dashed:!0}]}),W(Y_,{title:`${e.tooth}: ${U(`stressAlong`)}`,across:U(`alongMm`),up:`MPa`,lines:[{name:U(`stress`),x:e.stress.along_mm,y:e.stress.mpa}]})]},e.component))})]}),n?.solid&&W(`section`,{"aria-labelledby":`solid`,children:[W(`h2`,{id:`solid`,children:U(`solid`)}),W(dv,{rows:[[U(`elements`),n.solid.step_mm,`mm`],[U(`twist`),n.solid.twist_mm_under_10_n,`mm`],[U(`spread`),n.solid.spread_mm_under_10_n,`mm`]]}),W(`table`,{class:`rows`,children:[W(`thead`,{children:W(`tr`,{children:[W(`th`,{scope:`col`,children:U(`load`)}),W(`th`,{scope:`col`,class:`figure`,children:U(`peakStress`)}),W(`th`,{scope:`col`,class:`figure`,children:U(`yieldsAt`)})]})}),W(`tbody`,{children:n.solid.cases.map(e=>W(`tr`,{children:[W(`th`,{scope:`row`,children:e.load}),W(`td`,{class:`figure`,children:a(e.peak_stress_mpa,`MPa`)}),W(`td`,{class:`figure`,children:[a(e.yields_at,``),` ×`]})]},e.load))})]})]}),n&&W(`section`,{"aria-labelledby":`findings`,children:[W(`h2`,{id:`findings`,children:U(`findings`)}),W(av,{findings:n.findings}),W(fv,{base:`/api/cases/${encodeURIComponent(e)}/stages/proof/files`,files:t?.files??[]})]}),W(Qv,{}),W(`p`,{class:`small caution`,children:U(`caution`)})]}),W(Rv,{name:e,stage:`proof`})]})}function ey(e){let t=nr.value?.findings;return t?[...e.filter(e=>!e.rule.startsWith(`clasp.`)),...t]:e}var ty=[`turn`],ny={preparation:Wv,proof:$v,build:xv,furnace:Hv,inspection:Uv,clinic:Av,acrylic:mv,papers:Kv};function ry(){let e=Xt.value,t=we(null);F(()=>{qt.value=null,zn(),N_(),sn(e),cn(e),t.current=Ae(e),t.current.then(t=>{let n=t?.view.parts.filter(e=>e.shown)??[];t&&Zt.value===`design`&&Xt.value===e&&Ar(e,a_(t.view,n),t.stamp)},()=>{})},[e]);let n=qt.value?.line.name===e?qt.value:null,r=n?.view_stamp??``;F(()=>{if(!r)return;let n=!1;return(async()=>{let i=await t.current,a=i?.stamp===r?i:await Ae(e);!n&&a&&(Dn.value=a.view)})().catch(e=>V.value=String(e)),()=>{n=!0}},[e,r]);let i=n?.line.standing;if(F(()=>{i===`stale`&&r?or():sr()},[e,r,i,n?.revisions.at]),!n)return W(`main`,{"aria-busy":`true`});let a=ny[Zt.value];return a?W(a,{name:e},Zt.value):W(`main`,{class:`case`,children:[W(yr,{name:e,children:W(xr,{name:e})}),W(`div`,{class:`ticket`,children:[W(`section`,{"aria-labelledby":`prescription`,children:[W(`h2`,{id:`prescription`,children:U(`prescription`)}),n.line.error?W(`p`,{class:`stop`,children:n.line.error}):null,W(`p`,{children:n.prescription.map(e=>W(`span`,{children:[W($n,{text:e}),` `]},e))})]}),Dn.value&&W(Un,{view:Dn.value,stamp:r}),On.value!==null&&W(__,{name:e,code:On.value,view:Dn.value}),W(`section`,{"aria-labelledby":`findings`,children:[W(`h2`,{id:`findings`,children:U(`findings`)}),nr.value&&!nr.value.cuts&&W(`p`,{class:`hint`,role:`status`,children:U(`piecesAlone`)}),nr.value?.findings&&W(`p`,{class:`hint`,role:`status`,children:U(`asItWouldBe`)}),W(gr,{findings:ey(n.findings)})]}),W(h_,{name:e,view:Dn.value}),W(cr,{name:e,arch:n.line.arch}),W(C_,{name:e}),Dn.value&&W(pr,{view:Dn.value,stamp:r}),W(W_,{name:e}),W(`p`,{class:`small caution`,children:U(`caution`)})]}),k_.value?W(n_,{view:k_.value,stamp:D_.value?.view_stamp??``,tools:ty},`compared`):Dn.value&&W(n_,{view:Dn.value,stamp:r},`own`)]})}function iy({title:e}){return W(`header`,{children:[W(`p`,{children:W(`a`,{href:`#/`,children:U(`back`)})}),W(`h1`,{children:U(e)}),W(ay,{})]})}function ay(){return W(`nav`,{"aria-label":U(`labPages`),children:Wt.map(e=>W(`a`,{href:`#//${e}`,"aria-current":Zt.value===e?`page`:void 0,children:U(e)},e))})}var oy=`.stl,.ply,.obj,.3mf,.dcm`;function sy(){let e=z(!1),t=z(!1),n=async e=>{e.preventDefault();let n=e.currentTarget,r=new FormData(n);for(let[e,t]of[...r])(t===``||t instanceof File&&!t.name)&&r.delete(e);t.value=!0;let i=await It(new Request(`/api/cases`,{method:`POST`,body:r}));if(t.value=!1,i.ok){let e=await i.json();await on(),location.hash=`/${encodeURIComponent(e.name)}`}else V.value=Lt(await i.json().catch(()=>void 0))};if(!e.value)return W(`button`,{class:`first`,onClick:()=>e.value=!0,children:U(`newCase`)});let r=(e,t,n={})=>W(`label`,{children:[t,W(`input`,{name:e,...n})]});return W(`form`,{class:`card new`,onSubmit:e=>void n(e),children:[W(`h2`,{children:U(`newCase`)}),r(`name`,U(`name`),{required:!0,maxLength:64}),r(`master`,U(`master`),{type:`file`,accept:oy,required:!0}),r(`opposing`,U(`opposing`),{type:`file`,accept:oy}),r(`bite`,U(`bite`),{type:`file`,accept:oy}),r(`missing`,U(`missing`),{required:!0,placeholder:`36, 37, 46`}),r(`not_replaced`,U(`notReplaced`)),r(`functional_depth_mm`,`${U(`depth`)} [mm]`,{type:`number`,step:.5,min:.5,max:30}),r(`allergies`,U(`allergies`)),r(`patient`,U(`patient`)),r(`prescriber`,U(`prescriber`)),r(`laboratory`,U(`laboratory`)),r(`due`,U(`due`),{type:`date`}),W(`p`,{class:`row`,children:[W(`button`,{class:`first`,disabled:t.value,children:U(`make`)}),W(`button`,{type:`button`,onClick:()=>e.value=!1,children:U(`cancel`)})]})]})}function cy(){F(()=>void on(),[]);let e=Kt.value;return W(`main`,{class:`list`,children:[W(`h1`,{children:U(`cases`)}),W(ay,{}),W(sy,{}),e&&!e.length&&W(`p`,{class:`hint`,children:U(`noCases`)}),e&&e.length>0&&W(`table`,{children:[W(`thead`,{children:W(`tr`,{children:[W(`th`,{scope:`col`,children:U(`name`)}),W(`th`,{scope:`col`,children:U(`kennedy`)}),W(`th`,{scope:`col`,children:U(`due`)}),W(`th`,{scope:`col`,children:U(`standing`)}),W(`th`,{scope:`col`,children:U(`findings`)}),W(`th`,{scope:`col`,class:`figure`,children:`g`})]})}),W(`tbody`,{children:e.map(e=>{let t=hn(e.name);return W(`tr`,{children:[W(`th`,{scope:`row`,children:[W(`a`,{href:`#/${encodeURIComponent(e.name)}`,children:e.name}),e.number!==e.name&&W(`span`,{class:`small`,children:[` `,e.number]})]}),W(`td`,{children:[G(e.kennedy),` `,e.arch&&W(`span`,{class:`small`,children:G(e.arch)})]}),W(`td`,{children:dr(e.due,H.value)}),W(`td`,{children:[t?`${G(t.phase||t.state)}, ${Math.round(t.fraction*100)} %`:G(e.standing),e.error&&W(`p`,{class:`small`,children:e.error})]}),W(`td`,{children:[e.stops>0&&W(`span`,{class:`stop`,children:[`■ `,e.stops,` `,G(`stop`)]}),` `,e.looks>0&&W(`span`,{class:`look`,children:[`◆ `,e.looks,` `,G(`look`)]})]}),W(`td`,{class:`figure`,children:lr(e.mass_g,``,H.value)})]},e.name)})})]})]})}function ly(e){return W(b,{children:[W(iy,{title:e.title}),W(`p`,{class:`row`,children:[[U(`firstDay`),e.first],[U(`lastDay`),e.last]].map(([e,t])=>W(`label`,{class:`number`,children:[e,` `,W(`input`,{type:`date`,value:t.value,onChange:e=>t.value=e.currentTarget.value})]},e))}),e.trouble&&W(`p`,{class:`hint`,children:e.trouble})]})}function uy({label:e,children:t}){return W(`div`,{class:`scroll`,tabIndex:0,role:`group`,"aria-label":e,children:t})}var dy=[`powder_per_g`,`machine_per_build`,`furnace_per_hour`,`labour_per_framework`],fy=[`alloy_g`,`alloy_per_g`,`materials`,`labour`];function py(){let e=new Date().toISOString().slice(0,10),t=z(`${e.slice(0,7)}-01`),n=z(e),r=z(null),i=z(``),a=z(null);F(()=>{B.GET(`/api/rates`).then(({data:e,error:t})=>{e?a.value=e:V.value=Lt(t)})},[]),F(()=>{if(!t.value||!n.value)return;let e=!1;return B.GET(`/api/month`,{params:{query:{first:t.value,last:n.value}}}).then(({data:t,error:n})=>{e||(r.value=t?t.figures:null,i.value=t?``:Lt(n))}),()=>{e=!0}},[t.value,n.value,a.value]);let o=r.value,s=e=>o?.[e],c=(e,t)=>Object.entries(e).map(([e,n])=>[G(e),n,t]);return W(`main`,{class:`list`,children:[W(ly,{title:`month`,first:t,last:n,trouble:i.value}),o&&W(b,{children:[W(dv,{rows:[[U(`cases`),s(`cases`),``],[U(`frameworks`),s(`frameworks`),``],[U(`sent`),s(`sent`),``],[U(`late`),s(`late`),``],[U(`turnaround`),s(`turnaround_days`),`d`],[U(`builds`),s(`builds`),``],[U(`melted`),s(`powder_melted_g`),`g`],[U(`lostPowder`),s(`powder_lost_g`),`g`],[U(`furnaceHours`),s(`furnace_hours`),`h`],[U(`furnaceFailed`),s(`furnace_failed`),``],[U(`adjustedMean`),s(`adjusted_um`),`um`],[U(`complaints`),s(`complaints`),``]]}),W(`p`,{children:W(`a`,{href:`/api/month/paper?first=${t.value}&last=${n.value}`,target:`_blank`,rel:`noreferrer`,children:U(`monthPaper`)})}),W(`h2`,{children:U(`remakes`)}),Object.keys(o.remakes).length?W(dv,{rows:c(o.remakes,``)}):W(`p`,{class:`hint`,children:U(`none`)}),W(my,{of:o})]}),a.value&&W(hy,{rates:a}),o&&W(b,{children:[W(`h2`,{children:U(`gap`)}),o.gaps?W(dv,{rows:[[U(`meanAbs`),o.gaps.middle,`um`],[U(`controlLimits`),`${Math.round(o.gaps.lower)}–${Math.round(o.gaps.upper)} µm`,``],[U(`outside`),o.gaps.outside.length,``],[`Cpk`,o.gap_capability?.cpk,``]]}):W(`p`,{class:`hint`,children:U(`noQuality`)}),W(`h2`,{children:U(`byPlace`)}),Object.keys(o.bias_by_place_um).length?W(dv,{rows:c(o.bias_by_place_um,`um`)}):W(`p`,{class:`hint`,children:U(`noQuality`)})]})]})}function my({of:e}){let t=e=>e==null?`—`:e.toLocaleString(H.value,{minimumFractionDigits:2,maximumFractionDigits:2}),n=[...new Set([...Object.keys(e.cost_by_share),...Object.keys(e.casting_by_share)])],r=e.casting_per_framework||null,i=e.cost_per_framework,a=(e,n,r,i=!1)=>W(`tr`,{class:i?`sum`:void 0,children:[W(`th`,{scope:`row`,children:e}),W(`td`,{class:`figure`,children:t(n)}),W(`td`,{class:`figure`,children:t(r)}),W(`td`,{class:`figure`,children:n!=null&&r!=null?t(n-r):``})]},e);return W(`section`,{"aria-labelledby":`costs`,children:[W(`h2`,{id:`costs`,children:U(`costs`)}),i===null&&W(`p`,{class:`hint`,children:U(`noGood`)}),(i!==null||r!==null)&&W(uy,{label:U(`costs`),children:W(`table`,{class:`rows costs`,children:[W(`thead`,{children:W(`tr`,{children:[W(`th`,{scope:`col`,children:[U(`share`),`, `,e.currency]}),W(`th`,{scope:`col`,class:`figure`,children:U(`printed`)}),W(`th`,{scope:`col`,class:`figure`,children:U(`cast`)}),W(`th`,{scope:`col`,class:`figure`,children:U(`difference`)})]})}),W(`tbody`,{children:[n.map(t=>a(U(`share_${t}`),e.cost_by_share[t],e.casting_by_share[t])),a(U(`costTogether`),i,r,!0)]})]})}),r===null&&W(`p`,{class:`hint`,children:U(`castNotGiven`)}),W(`p`,{class:e.rates_given?`small`:`look`,children:e.rates_given?U(`bothOwn`):`◆ ${U(`examplePrices`)}`})]})}function hy({rates:e}){let t=e.value,n=z(``),r=async t=>{let r=e=>t.number(e)??0,i={alloy_g:r(`alloy_g`),alloy_per_g:r(`alloy_per_g`),materials:r(`materials`),labour:r(`labour`),remake_share:Math.round(r(`remake_share`)*100)/1e4},{data:a,error:o}=await B.PUT(`/api/rates`,{body:{currency:t.text(`currency`),powder_per_g:r(`powder_per_g`),machine_per_build:r(`machine_per_build`),furnace_per_hour:r(`furnace_per_hour`),labour_per_framework:r(`labour_per_framework`),casting_per_framework:r(`casting_per_framework`),casting:i.alloy_g||i.materials||i.labour?i:null,given:!0}});a&&(e.value=a),n.value=a?`● ${U(`kept`)}`:``,V.value=a?``:Lt(o)},i=(e,t,n=1e6)=>W(`label`,{children:[U(e),` `,W(`input`,{name:e,type:`number`,min:0,max:n,step:`any`,defaultValue:t?String(t):``})]},e);return W(`details`,{open:!t.given,children:[W(`summary`,{children:U(`prices`)}),W(`form`,{class:`new prices`,onSubmit:e=>{e.preventDefault(),r(new X_(new FormData(e.currentTarget)))},children:[W(`p`,{class:`small`,children:U(`pricesHow`)}),W(`label`,{children:[U(`currency`),` `,W(`input`,{name:`currency`,required:!0,maxLength:8,defaultValue:t.currency})]}),dy.map(e=>i(e,t[e])),W(`h3`,{children:U(`castByShares`)}),fy.map(e=>i(e,t.casting?.[e])),i(`remake_share`,(t.casting?.remake_share??0)*100,99),i(`casting_per_framework`,t.casting_per_framework),W(`p`,{children:[W(`button`,{children:U(`keepPrices`)}),` `,W(`span`,{class:`small`,role:`status`,children:n.value})]})]})]})}function gy({tasks:e,children:t}){let n=hn(``);return n&&e.includes(n.task)?W(xr,{name:``}):W(`fieldset`,{class:`work`,disabled:!!n,children:t})}var _y=[`D10`,`D90`],vy=`apparent density`,yy=[`chemistry`,`size`,`density`,`lot`],by=`cocr-lpbf-stress-relieved`;function xy(){let e=z(null),t=z({lot:``,alloy:by,values:{},shown:[]}),n=z(null),r=z(null),i=t.value,a=async()=>{let{data:n,error:r}=await B.GET(`/api/powder`,{params:{query:{alloy:t.value.alloy}}});n?e.value=n:V.value=Lt(r)};F(()=>void a(),[i.alloy]),F(()=>{let e=!1;return!i.lot||!Object.keys(i.values).length?n.value=null:B.POST(`/api/powder/judged`,{body:Cy(i)}).then(({data:t,error:r})=>{e||(n.value=t??null,V.value=t?``:Lt(r))}),()=>{e=!0}},[i]);let o=r.value&&Jt.value.get(r.value.job.id);F(()=>{r.value&&(o?.state??r.value.job.state)===`done`&&wy(r.value.upload,t)},[r.value,o?.state]);let s=n.value?.rows??e.value?.limits??[];return W(`main`,{class:`list`,children:[W(iy,{title:`feedstock`}),W(Ny,{lots:e.value?.lots??[]}),W(`section`,{"aria-labelledby":`certificate`,children:[W(`h2`,{id:`certificate`,children:U(`certificateOf`)}),W(`p`,{class:`small`,children:U(`certificateHow`)}),W(gy,{tasks:[`read the certificate`],children:W(Ty,{sent:r})}),W(`p`,{class:`row`,children:[W(`label`,{class:`number`,children:[U(`lot`),` `,W(`input`,{value:i.lot,maxLength:120,onChange:e=>Sy(t,{lot:e.currentTarget.value.trim()})})]}),W(`label`,{class:`number`,children:[U(`alloy`),W(`select`,{value:i.alloy,onChange:e=>Sy(t,{alloy:e.currentTarget.value}),children:Object.entries(e.value?.alloys??{}).map(([e,t])=>W(`option`,{value:t[0],children:G(e)},e))})]})]}),W(Ey,{rows:s,typed:t}),W(jy,{rows:s,typed:t}),n.value&&W(av,{findings:n.value.findings.map(e=>({...e,component:`${U(`lot`)} ${i.lot}`}))}),W(My,{typed:t,verdict:n.value,lots:e.value?.lots??[],upload:r.value?.upload??``,done:a})]}),W(`p`,{class:`small caution`,children:U(`caution`)})]})}function Sy(e,t){e.value={...e.value,...t}}function Cy(e){let[t,n]=_y.map(t=>e.values[t]),r=Object.entries(e.values).filter(([e])=>/^[A-Z][a-z]?$/.test(e));return{lot:e.lot,alloy:e.alloy,percent:Object.fromEntries(r),shown:e.shown,size_um:t===void 0||n===void 0?null:[t,n],apparent_density_g_cm3:e.values[vy]??null}}async function wy(e,t){let{data:n,error:r}=await B.GET(`/api/powder/files/{upload}`,{params:{path:{upload:e}}});if(!n){V.value=Lt(r);return}let i={...n.percent};n.size_um?.forEach((e,t)=>i[_y[t]]=e),n.apparent_density_g_cm3!==null&&(i[vy]=n.apparent_density_g_cm3),Sy(t,{lot:n.lot,values:i,shown:n.shown})}function Ty({sent:e}){let t=async t=>{let n=await It(new Request(`/api/powder/files`,{method:`POST`,body:new FormData(t)})),r=await n.json().catch(()=>void 0);ln(n.ok?{data:r.job}:{error:r})&&(e.value=r)};return W(`form`,{class:`row`,onSubmit:e=>{e.preventDefault(),t(e.currentTarget)},children:[W(`label`,{class:`number`,children:[U(`certificateFile`),` `,W(`input`,{type:`file`,name:`certificate`,accept:`.toml`,required:!0})]}),W(`button`,{children:U(`sendFile`)})]})}function Ey({rows:e,typed:t}){let n=z(``),r=e.filter(e=>e.rule!==`certificate.items`),i=Object.keys(t.value.values).filter(e=>!r.some(t=>t.item===e)),a=[...r,...i.map(e=>Dy(e))],o=(e,n)=>{let r={...t.value.values};Number.isNaN(n)?delete r[e]:r[e]=n,Sy(t,{values:r})};return W(b,{children:[W(uy,{label:U(`certificateOf`),children:W(`table`,{class:`rows limits`,children:[W(`thead`,{children:W(`tr`,{children:[W(`th`,{scope:`col`,children:U(`certificate`)}),W(`th`,{scope:`col`,class:`figure`,children:U(`whatItHolds`)}),W(`th`,{scope:`col`,class:`figure`,children:U(`limitOf`)}),W(`th`,{scope:`col`,children:U(`verdict`)}),W(`th`,{scope:`col`,children:U(`source`)})]})}),W(`tbody`,{children:a.map((e,n)=>{let r=a.findIndex(t=>t.item===e.item)<n,i=e.rule===`certificate.declare`?`${e.item}, ${U(`toDeclare`)}`:Oy(e.item);return W(`tr`,{"data-item":e.item,children:[W(`th`,{scope:`row`,children:i}),W(`td`,{class:`figure`,children:r?lr(t.value.values[e.item],e.unit,H.value):W(`label`,{class:`number`,children:[W(`input`,{type:`number`,step:`any`,min:0,"aria-label":i,value:t.value.values[e.item]??``,onChange:t=>o(e.item,t.currentTarget.valueAsNumber)}),e.unit===`um`?`µm`:e.unit===`g/cm3`?`g/cm³`:e.unit]})}),W(`td`,{class:`figure`,children:ky(e)}),W(`td`,{children:W(Ay,{row:e,begun:Object.keys(t.value.values).length>0})}),W(`td`,{class:`small`,children:G(e.source)})]},`${e.rule}${e.item}`)})})]})}),W(`p`,{class:`row`,children:[W(`label`,{class:`number`,children:[U(`otherElement`),W(`input`,{class:`short`,value:n.value,maxLength:2,pattern:`[A-Z][a-z]?`,onInput:e=>n.value=e.currentTarget.value})]}),W(`button`,{disabled:!/^[A-Z][a-z]?$/.test(n.value)||a.some(e=>e.item===n.value),onClick:()=>(o(n.value,0),n.value=``),children:U(`addElement`)})]})]})}function Dy(e){return{rule:`certificate.chemistry`,item:e,value:null,low:null,high:null,unit:`%`,shown:!1,severity:null,source:``}}function Oy(e){return e===vy?U(`item_density`):e}function ky(e){let t=e=>e.toLocaleString(H.value,{maximumFractionDigits:4}),n=e.unit===`um`?`µm`:e.unit===`g/cm3`?`g/cm³`:e.unit;return e.high===null?U(`noLimit`):e.low===null||e.low===0?`${U(`atMost`)} ${t(e.high)} ${n}`:`${t(e.low)} – ${t(e.high)} ${n}`}function Ay({row:e,begun:t}){return e.severity&&(t||e.shown)?W(`span`,{class:e.severity,children:[e.severity===`stop`?`■`:`◆`,` `,e.shown?e.rule===`certificate.declare`?U(`declareIt`):U(`certFailed`):U(`notShown`)]}):e.shown?e.high===null?null:W(`span`,{class:`note`,children:[`● `,U(`holds`)]}):W(`span`,{class:`small`,children:t?U(`notShown`):``})}function jy({rows:e,typed:t}){let n=e.filter(e=>e.rule===`certificate.items`);return n.length?W(`fieldset`,{class:`items`,children:[W(`legend`,{children:U(`mustShow`)}),n.map(({item:e,shown:n})=>W(`label`,{class:`tick`,children:[W(`input`,{type:`checkbox`,disabled:yy.includes(e),checked:yy.includes(e)?n&&Object.keys(t.value.values).length>0:t.value.shown.includes(e),onChange:n=>Sy(t,{shown:n.currentTarget.checked?[...t.value.shown,e]:t.value.shown.filter(t=>t!==e)})}),U(`item_${e}`)??e]},e)),W(`span`,{class:`small`,children:G(n[0].source)})]}):null}function My(e){let t=e.typed.value,n=!e.lots.some(e=>e.id===t.lot),r=e.verdict?.passed??!0;return W(b,{children:[W($_,{}),e.verdict&&!r&&W(`p`,{class:`stop`,children:[`■ `,U(`certDespite`)]}),e.verdict&&n&&W(`p`,{class:`hint`,children:U(`newLot`)}),W(Z_,{label:U(r?`enterCertificate`:`enterFailed`),disabled:!e.verdict,done:e.done,send:r=>B.POST(`/api/powder/certificates`,{body:{...Cy(t),...ev(),upload:e.upload,new:n?{mass_g:r.number(`mass`)??0,received:r.text(`received`),maker_lot:r.text(`maker`),expires:r.text(`expires`)||null}:null}}),children:e.verdict&&n&&W(b,{children:[W(`label`,{class:`number`,children:[U(`receivedMass`),` `,W(`input`,{name:`mass`,type:`number`,min:.1,step:`any`,required:!0})]}),W(`label`,{class:`number`,children:[U(`receivedOn`),` `,W(`input`,{name:`received`,type:`date`,required:!0,defaultValue:tv()})]}),W(`label`,{class:`number`,children:[U(`makersLot`),` `,W(`input`,{name:`maker`,maxLength:120})]}),W(`label`,{class:`number`,children:[U(`expiresOn`),` `,W(`input`,{name:`expires`,type:`date`})]})]})})]})}function Ny({lots:e}){return W(`section`,{"aria-labelledby":`lots`,children:[W(`h2`,{id:`lots`,children:U(`lotsHere`)}),!e.length&&W(`p`,{class:`hint`,children:U(`noLots`)}),e.length>0&&W(uy,{label:U(`lotsHere`),children:W(`table`,{class:`rows`,children:[W(`thead`,{children:W(`tr`,{children:[W(`th`,{scope:`col`,children:U(`lot`)}),W(`th`,{scope:`col`,children:U(`alloy`)}),W(`th`,{scope:`col`,class:`figure`,children:`g`}),W(`th`,{scope:`col`,children:U(`receivedOn`)}),W(`th`,{scope:`col`,children:U(`certificate`)})]})}),W(`tbody`,{children:e.map(e=>W(`tr`,{children:[W(`th`,{scope:`row`,children:[e.id,` `,e.maker_lot&&W(`span`,{class:`small`,children:e.maker_lot})]}),W(`td`,{children:e.alloy}),W(`td`,{class:`figure`,children:lr(e.mass_g,``,H.value)}),W(`td`,{children:dr(e.received,H.value)}),W(`td`,{children:e.certificate_passed===null?W(`span`,{class:`look`,children:[`◆ `,U(`certNone`)]}):e.certificate_passed?W(`span`,{class:`note`,children:[`● `,U(`certPassed`)]}):W(`span`,{class:`stop`,children:[`■ `,U(`certFailed`)]})})]},e.id))})]})})]})}var[Py,Fy,Iy,Ly,Ry,zy]=[640,220,52,30,12,60];function By({chart:e,title:t}){let n=[...e.values,e.lower,e.upper],[r,i]=[Math.min(...n),Math.max(...n)],a=e=>lr(e,`um`,H.value),o=t=>Iy+(t+.5)/e.values.length*(Py-Iy-zy),s=e=>Ry+(i-e)/(i-r||1)*(Fy-Ly-Ry),c=`${t}: ${e.values.length}, ${U(`mean`)} ${a(e.middle)}, ${U(`limit`)} ${a(e.lower)} – ${a(e.upper)}, ${e.outside.length} ${U(`beyond`)}, ${e.runs.length} ${U(`longRun`)}`;return W(`figure`,{class:`curve chart`,children:[W(`svg`,{viewBox:`0 0 ${Py} ${Fy}`,role:`img`,"aria-label":c,children:[[[`middle`,e.middle],[`limit`,e.upper],[`limit`,e.lower]].map(([e,t],n)=>W(`g`,{children:[W(`line`,{class:e,x1:Iy,x2:Py-zy,y1:s(t),y2:s(t)}),W(`text`,{x:Py-zy+4,y:s(t)+4,children:a(t)})]},n)),W(`path`,{class:`line`,d:e.values.map((e,t)=>`${t?`L`:`M`}${o(t).toFixed(1)} ${s(e).toFixed(1)}`).join(``)}),e.values.map((e,t)=>W(`circle`,{class:`dot`,cx:o(t),cy:s(e),r:2},t)),e.runs.map(t=>W(`rect`,{class:`run`,x:o(t)-5,y:s(e.values[t])-5,width:10,height:10},t)),e.outside.map(t=>W(`circle`,{class:`out`,cx:o(t),cy:s(e.values[t]),r:6},t)),W(`text`,{x:Iy-4,y:Ry+4,"text-anchor":`end`,children:a(i)}),W(`text`,{x:Iy-4,y:Fy-Ly,"text-anchor":`end`,children:a(r)}),W(`text`,{x:(Py+Iy-zy)/2,y:Fy-6,"text-anchor":`middle`,children:U(`chartHow`)})]}),W(`figcaption`,{class:`small`,children:[e.outside.length>0&&W(`span`,{class:`stop`,children:[`○ `,e.outside.length,` `,U(`beyond`),` `]}),e.runs.length>0&&W(`span`,{children:[`□ `,e.runs.length,` `,U(`longRun`)]})]})]})}function Vy(){let e=new Date,t=z(new Date(e.getTime()-7776e6).toISOString().slice(0,10)),n=z(e.toISOString().slice(0,10)),r=z(null),i=z(``);F(()=>{t.value&&n.value&&B.GET(`/api/quality`,{params:{query:{first:t.value,last:n.value}}}).then(({data:e,error:t})=>{r.value=e?e.told:null,i.value=e?``:Lt(t)})},[t.value,n.value]);let a=r.value;return W(`main`,{class:`list`,children:[W(ly,{title:`quality`,first:t,last:n,trouble:i.value}),a&&W(dv,{rows:[[U(`frameworks`),a.frameworks,``],[U(`seatedShare`),a.seated_without_adjustment_share===null?null:100*a.seated_without_adjustment_share,`%`]]}),a&&!a.measures.length&&W(`p`,{class:`hint`,children:U(`noQuality`)}),a?.measures.map(e=>W(Hy,{one:e},e.name))]})}function Hy({one:e}){let t=(e,t=`um`)=>lr(e,t,H.value),n=U(e.name);return W(`section`,{"aria-labelledby":e.name,children:[W(`h2`,{id:e.name,children:n}),W(By,{chart:e.chart,title:n}),W(dv,{rows:[[U(`mean`),e.chart.middle,`um`],[`Cpk`,e.capability&&`${t(e.capability.cpk,``)} (${U(`interval`)} ${t(e.capability.cpk_low,``)} – ${t(e.capability.cpk_high,``)})`,``],[U(`expectedOutside`),e.capability&&100*e.capability.share_outside,`%`]]}),W(`div`,{class:`split`,children:Object.entries(e.groups).filter(([,e])=>e.length>0).map(([n,r])=>W(`details`,{open:r.length>1&&r.length<=6,children:[W(`summary`,{children:[U(`by_${n}`),` (`,r.length,`)`]}),e.precision[n]&&W(`p`,{class:`small`,children:[U(`repeatability`),` `,t(e.precision[n].repeatability_sd),`, `,U(`reproducibility`),` `,t(e.precision[n].reproducibility_sd)]}),W(uy,{label:U(`by_${n}`),children:W(`table`,{class:`rows`,children:[W(`thead`,{children:W(`tr`,{children:[W(`td`,{}),W(`th`,{scope:`col`,class:`figure`,children:U(`count`)}),W(`th`,{scope:`col`,class:`figure`,children:U(`mean`)}),W(`th`,{scope:`col`,class:`figure`,children:U(`sd`)})]})}),W(`tbody`,{children:r.map(e=>W(`tr`,{children:[W(`th`,{scope:`row`,children:G(e.name)}),W(`td`,{class:`figure`,children:e.count}),W(`td`,{class:`figure`,children:t(e.mean)}),W(`td`,{class:`figure`,children:e.sd===null?`—`:t(e.sd)})]},e.name))})]})})]},n))}),e.drivers.length?W(Uy,{rows:e.drivers}):W(`p`,{class:`hint`,children:U(`tooFewForDrivers`)})]})}function Uy({rows:e}){let t=e.filter(e=>e.name!==`intercept`),n=Math.max(...t.flatMap(e=>[Math.abs(e.low),Math.abs(e.high)]),1e-9),r=e=>lr(e,`um`,H.value),i=e=>100+e/n*95;return W(b,{children:[W(`p`,{class:`small`,children:U(`driversHow`)}),W(uy,{label:U(`driversHow`),children:W(`table`,{class:`rows drivers`,children:W(`tbody`,{children:t.map(e=>W(`tr`,{children:[W(`th`,{scope:`row`,children:Gy(e.name)}),W(`td`,{class:`figure`,children:r(e.estimate)}),W(`td`,{class:`figure`,children:[r(e.low),` – `,r(e.high)]}),W(`td`,{children:W(`svg`,{viewBox:`0 0 200 16`,"aria-hidden":`true`,children:[W(`line`,{class:`zero`,x1:100,x2:100,y1:0,y2:16}),W(`line`,{class:e.clear?`span clear`:`span`,x1:i(e.low),x2:i(e.high),y1:8,y2:8}),W(`circle`,{class:e.clear?`clear`:``,cx:i(e.estimate),cy:8,r:4})]})}),W(`td`,{children:e.clear?W(`b`,{children:[`● `,U(`clear`)]}):W(`span`,{class:`small`,children:[`○ `,U(`unclear`)]})})]},e.name))})})})]})}var Wy=[`earlier_builds_of_powder`,`x_cm`,`y_cm`,`off_centre_cm`,`mass_g`,`inspected_bias_um`,`intercept`];function Gy(e){let t=Wy.find(t=>t===e);return t?U(t):e.replace(/^machine/,U(`machine`))}function Ky({changed:e}){let t=z([]),n=z(`lot`),r=z(``),i=z(null);F(()=>{B.GET(`/api/register/kinds`).then(({data:e})=>e&&(t.value=Object.keys(e.kinds)))},[]);let a=async(e,t=r.value.trim()?`${n.value}:${r.value.trim()}`:n.value)=>{let a={params:{query:{subject:t}}},o=e=>(V.value=e.data?``:Lt(e.error),e.data);if(e===`show`){let t=o(await B.GET(`/api/register/things`,a));i.value=t?{way:e,...t}:null}else if(e===`trace`){let t=o(await B.GET(`/api/register/trace`,a));i.value=t?{way:e,...t}:null}else{let t=o(await B.GET(`/api/register/recall`,a));i.value=t?{way:e,...t}:null}},o=i.value,s=!r.value.trim();return W(`section`,{"aria-labelledby":`lookup`,children:[W(`h2`,{id:`lookup`,children:U(`lookUp`)}),W(`p`,{class:`small`,children:U(`lookUpHow`)}),W(`form`,{class:`row`,onSubmit:e=>{e.preventDefault(),a(`show`)},children:[W(`label`,{class:`number`,children:[U(`kind`),W(`select`,{value:n.value,onChange:e=>n.value=e.currentTarget.value,children:t.value.map(e=>W(`option`,{value:e,children:e.replaceAll(`_`,` `)},e))})]}),W(`label`,{class:`number`,children:[U(`id`),` `,W(`input`,{value:r.value,maxLength:120,onInput:e=>r.value=e.currentTarget.value})]}),W(`button`,{children:U(`showEntries`)}),W(`button`,{type:`button`,disabled:s,onClick:()=>void a(`trace`),children:U(`traceIt`)}),W(`button`,{type:`button`,disabled:s||![`lot`,`batch`,`build`].includes(n.value),onClick:()=>void a(`recall`),children:U(`recallIt`)})]}),W(`div`,{role:`status`,children:[o?.way===`show`&&W(qy,{subject:o.subject,rows:o.rows}),o?.way===`trace`&&W(Yy,{subject:o.subject,from:o.came_from}),o?.way===`recall`&&W(Xy,{of:o})]}),o?.way===`show`&&o.subject.includes(`:`)&&o.rows.length>0&&W(b,{children:[W($_,{}),W(Z_,{label:U(`signIt`),done:e,send:e=>B.POST(`/api/register/signatures`,{body:{subject:o.subject,meaning:e.text(`meaning`),role:e.text(`role`),...ev()}}),children:[W(`label`,{class:`number`,children:[U(`meaning`),` `,W(`input`,{name:`meaning`,required:!0,maxLength:200})]}),W(`label`,{class:`number`,children:[U(`office`),` `,W(`input`,{name:`role`,maxLength:120})]})]})]})]})}function qy({subject:e,rows:t}){if(!t.length)return W(`p`,{class:`hint`,children:U(`nothingFound`)});let n=!e.includes(`:`);return W(uy,{label:e,children:W(`table`,{class:`rows`,children:W(`tbody`,{children:t.map((e,t)=>W(`tr`,{children:[W(`th`,{scope:`row`,children:String(n?e.id:e.seq)}),!n&&W(`td`,{children:[fr(String(e.made_at),H.value),W(`br`,{}),String(e.made_by)]}),W(`td`,{class:`small`,children:Jy(e.body)})]},t))})})})}function Jy(e){return Object.entries(e).map(([e,t])=>`${e.replaceAll(`_`,` `)}: ${typeof t==`object`?JSON.stringify(t):String(t)}`).join(`, `)}function Yy({subject:e,from:t}){let n=Object.entries(t);return W(b,{children:[W(`h3`,{children:[e,` `,U(`cameFrom`)]}),!n.length&&W(`p`,{class:`hint`,children:U(`nothingFound`)}),W(`table`,{class:`rows`,children:W(`tbody`,{children:n.map(([e,t])=>W(`tr`,{children:[W(`th`,{scope:`row`,children:e.replaceAll(`_`,` `)}),W(`td`,{children:t.join(`, `)})]},e))})})]})}function Xy({of:e}){return W(b,{children:[W(`h3`,{children:[U(`recallOf`),` `,e.subject]}),!e.frameworks.length&&W(`p`,{class:`hint`,children:U(`recallNone`)}),e.frameworks.length>0&&W(b,{children:[W(`p`,{children:[U(`recallCount`),`: `,e.frameworks.length,` `,W(`a`,{href:`/api/register/recall/paper?subject=${encodeURIComponent(e.subject)}`,target:`_blank`,rel:`noreferrer`,children:U(`recallPaper`)})]}),W(uy,{label:`${U(`recallOf`)} ${e.subject}`,children:W(`table`,{class:`rows`,children:[W(`thead`,{children:W(`tr`,{children:[U(`framework`),U(`name`),U(`patient`),U(`prescriber`),U(`build`)].map(e=>W(`th`,{scope:`col`,children:e},e))})}),W(`tbody`,{children:e.frameworks.map(e=>W(`tr`,{children:[W(`th`,{scope:`row`,children:e.part}),W(`td`,{children:e.case}),W(`td`,{children:e.patient}),W(`td`,{children:e.prescriber}),W(`td`,{children:e.build})]},e.part))})]})})]})]})}function Zy({done:e}){let t=z(``),n=z(void 0),r=z(``),i=z(``),a=e=>{V.value=e.data?``:Lt(e.error),e.data&&(n.value=e.data.kept,r.value=Object.entries(n.value??{}).map(([e,t])=>`${e}: ${typeof t==`string`?t:JSON.stringify(t)}`).join(`
`))},o=async()=>a(await B.POST(`/api/register/persons/shown`,{body:{pseudonym:t.value.trim()}})),s=async()=>a(await B.PUT(`/api/register/persons`,{body:{pseudonym:t.value.trim(),fields:Qy(r.value)}}));return W(`section`,{"aria-labelledby":`persons`,children:[W(`h2`,{id:`persons`,children:U(`persons`)}),W(`p`,{class:`small`,children:U(`personsHow`)}),W(`form`,{class:`row`,onSubmit:e=>{e.preventDefault(),o()},children:[W(`label`,{class:`number`,children:[U(`pseudonym`),W(`input`,{value:t.value,required:!0,maxLength:120,autoComplete:`off`,onInput:e=>(t.value=e.currentTarget.value,n.value=void 0,i.value=``)})]}),W(`button`,{children:U(`showPerson`)})]}),n.value!==void 0&&W(`form`,{class:`entry`,onSubmit:e=>{e.preventDefault(),s()},children:[n.value===null&&W(`p`,{class:`hint`,children:U(`personNone`)}),W(`label`,{class:`tall`,children:[U(`personFields`),W(`textarea`,{rows:4,value:r.value,maxLength:8e3,onInput:e=>r.value=e.currentTarget.value})]}),W(`p`,{children:W(`button`,{disabled:!r.value.trim(),children:U(`keepPerson`)})})]}),n.value&&W(b,{children:[W(`h3`,{children:U(`erase`)}),W(`p`,{class:`small`,children:U(`eraseHow`)}),W($_,{}),W(Z_,{label:U(`erase`),done:async()=>{n.value=null,r.value=``,i.value=``,await e()},send:async e=>e.text(`again`)===t.value.trim()?B.POST(`/api/register/erasures`,{body:{pseudonym:t.value.trim(),reason:e.text(`reason`),...ev()}}):{error:{what:U(`eraseDiffers`)}},children:[W(`label`,{class:`number`,children:[U(`eraseReason`),` `,W(`input`,{name:`reason`,maxLength:400})]}),W(`label`,{class:`number`,children:[U(`eraseAgain`),` `,W(`input`,{name:`again`,required:!0,maxLength:120,autoComplete:`off`})]})]})]})]})}function Qy(e){let t=e.split(`
`).filter(e=>e.trim()).map(e=>{let t=e.indexOf(`:`);return t<0?[e.trim(),``]:[e.slice(0,t).trim(),e.slice(t+1).trim()]});return Object.fromEntries(t)}function $y(){let e=z(null),t=async()=>{let{data:t,error:n}=await B.GET(`/api/register`);t?e.value=t:V.value=Lt(n)},n=hn(``)?.id;F(()=>void t(),[n,Jt.value.size]);let r=e.value,i=!vn.value?.accounts||vn.value.role===`lead`,a=async()=>{let{data:t,error:n}=await B.POST(`/api/register`);t?e.value=t:V.value=Lt(n)};return r?W(`main`,{class:`list`,children:[W(iy,{title:`register`}),W(`section`,{"aria-labelledby":`state`,children:[W(`h2`,{id:`state`,children:U(`registerState`)}),!r.there&&W(`p`,{children:[U(`noRegister`),` `,W(`button`,{class:`first`,onClick:()=>void a(),children:U(`makeRegister`)})]}),r.there&&!r.up_to_date&&W(`p`,{class:`look`,children:[`◆ `,U(`oldRegister`),` `,W(`button`,{onClick:()=>void a(),children:U(`bringUp`)})]}),r.up_to_date&&W(b,{children:[W(dv,{rows:[[U(`entriesCount`),r.entries,``],...Object.entries(r.counts).map(([e,t])=>[e.replaceAll(`_`,` `),t,``])]}),W(`p`,{class:`small`,children:[U(`headNow`),`: `,W(`code`,{class:`hash`,children:r.head})]}),W(`p`,{class:`small`,children:U(`headHow`)})]})]}),r.up_to_date&&W(Ky,{changed:t}),r.up_to_date&&!i&&W(`p`,{class:`hint`,children:U(`leadOnly`)}),r.up_to_date&&i&&W(b,{children:[W(eb,{state:e}),W(tb,{state:r,of:`backups`}),W(tb,{state:r,of:`exports`}),W(Zy,{done:t})]})]}):W(`main`,{class:`list`,children:W(iy,{title:`register`})})}function eb({state:e}){let t=z(``),n=e.value.checked,r=async()=>ln(await B.POST(`/api/register/check`,{body:{head:t.value}}));return W(`section`,{"aria-labelledby":`whole`,children:[W(`h2`,{id:`whole`,children:U(`checkTitle`)}),W(`p`,{class:`small`,children:U(`checkHow`)}),!n&&W(`p`,{class:`hint`,children:U(`neverChecked`)}),n&&W(b,{children:[W(`p`,{class:n.faults.length?`stop`:`note`,"data-whole":!n.faults.length,children:n.faults.length?`■ ${U(`notWhole`)}`:`● ${U(`isWhole`)}`}),W(`p`,{class:`small`,children:[U(`checkedOn`),` `,fr(`${n.on}Z`,H.value),`, `,n.entries,` `,U(`entriesCount`),n.against&&W(b,{children:[`, `,U(`againstHead`),` `,W(`code`,{class:`hash`,children:n.against})]}),e.value.entries>n.entries&&W(b,{children:[`; `,U(`entriesSince`),`: `,e.value.entries-n.entries]})]}),W(`ul`,{class:`told`,children:n.faults.map(e=>W(`li`,{class:`stop`,children:W(`p`,{children:[W(`span`,{class:`sign`,children:`■`}),` `,W(`span`,{lang:`en`,children:e})]})},e))})]}),W(gy,{tasks:[`check the register`],children:W(`form`,{class:`row`,onSubmit:e=>{e.preventDefault(),r()},children:[W(`label`,{class:`number`,children:[U(`headNoted`),` `,W(`input`,{value:t.value,maxLength:100,onInput:e=>t.value=e.currentTarget.value})]}),W(`button`,{children:U(`checkNow`)})]})})]})}function tb({state:e,of:t}){let n=t===`backups`,r=e[t],i=async()=>ln(n?await B.POST(`/api/register/backups`):await B.POST(`/api/register/exports`)),a=async e=>ln(await B.POST(`/api/register/restored`,{body:{file:e}}));return W(`section`,{"aria-labelledby":t,children:[W(`h2`,{id:t,children:U(t)}),W(`p`,{class:`small`,children:U(n?`backupHow`:`exportHow`)}),!r.length&&W(`p`,{class:`hint`,children:U(n?`noBackups`:`noExports`)}),r.length>0&&W(uy,{label:U(t),children:W(`table`,{class:`rows`,children:[W(`thead`,{children:W(`tr`,{children:[W(`th`,{scope:`col`,children:U(`file`)}),W(`th`,{scope:`col`,class:`figure`,children:U(`size`)}),n&&W(`th`,{scope:`col`,children:U(`headNow`)}),n&&W(`td`,{})]})}),W(`tbody`,{children:r.map(e=>W(`tr`,{children:[W(`th`,{scope:`row`,children:W(`a`,{href:`/api/register/${t}/${encodeURIComponent(e.file)}`,download:e.file,children:e.file})}),W(`td`,{class:`figure`,children:lr(e.size_bytes/1e3,`kB`,H.value)}),n&&W(`td`,{children:W(`code`,{class:`hash`,children:e.head})}),n&&W(`td`,{children:e.restored?W(`span`,{class:`note`,children:[`● `,U(`triedBackup`)]}):W(`button`,{disabled:!!hn(``),"aria-label":`${U(`tryBackup`)}: ${e.file}`,onClick:()=>void a(e.file),children:U(`tryBackup`)})})]},e.file))})]})}),W(gy,{tasks:n?[`back up`,`restore`]:[`export`],children:W(`button`,{onClick:()=>void i(),children:U(n?`backupNow`:`exportNow`)})}),n&&W(`p`,{class:`small`,children:[U(`restoreHow`),` `,W(`code`,{children:[`claspwright register restore backups/`,r[0]?.file??`…`,` --register register`]})]})]})}function nb(){let e=z(!1),t=async t=>{let n=new FormData(t);e.value=!0,await bn(String(n.get(`name`)),String(n.get(`password`))),e.value=!1};return W(`main`,{children:W(`form`,{class:`card new`,onSubmit:e=>{e.preventDefault(),t(e.currentTarget)},children:[W(`h1`,{children:U(`signIn`)}),W(`label`,{children:[U(`account`),` `,W(`input`,{name:`name`,required:!0,maxLength:60,autocomplete:`username`})]}),W(`label`,{children:[U(`password`),W(`input`,{name:`password`,type:`password`,required:!0,maxLength:400,autocomplete:`current-password`})]}),W(`p`,{children:W(`button`,{class:`first`,disabled:e.value,children:U(`signIn`)})})]})})}function rb(){return W(b,{children:[W(`header`,{class:`top`,children:[W(`span`,{class:`mark`,children:`Claspwright`}),!Yt.value&&W(`span`,{class:`lost`,role:`status`,children:U(`lost`)}),vn.value?.name&&W(`span`,{class:`small who`,children:[vn.value.name,` (`,U(vn.value.role||`none`),`)`,` `,W(`button`,{class:`link`,onClick:()=>void xn(),children:U(`signOut`)})]}),W(`label`,{class:`small`,children:[U(`language`),` `,W(`select`,{value:H.value,onChange:e=>$t(e.currentTarget.value),children:Object.keys(Ht).map(e=>W(`option`,{value:e,children:e},e))})]})]}),V.value&&W(`p`,{class:`trouble`,role:`alert`,children:[V.value,` `,W(`button`,{class:`link`,"aria-label":`close`,onClick:()=>V.value=``,children:`×`})]}),vn.value?vn.value.accounts&&!vn.value.name?W(nb,{}):Xt.value?W(ry,{}):Zt.value===`month`?W(py,{}):Zt.value===`quality`?W(Vy,{}):Zt.value===`feedstock`?W(xy,{}):Zt.value===`register`?W($y,{}):W(cy,{}):null]})}document.documentElement.lang=H.value,yn(),ce(W(rb,{}),document.getElementById(`page`)),Or();