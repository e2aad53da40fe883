/* The same closed form in C: the practical limit of one core, for a ratio in one run. gcc -O3 -march=native -ffast-math jointLimit.c -lm */
#include <stdio.h>
#include <stdlib.h>
#include <complex.h>
#include <math.h>
#include <time.h>
static double joint(double lam,double n,double ex,double ey,double rx,double ry,double dx,double dy,double z,double tx,double ty,double roll,double wx,double wy){
  double k=2*M_PI*n/lam; double complex ax,ay;
  ax=I*k/(2*((z-wx)+I*(k*ex*ex/8))); ay=I*k/(2*((z-wy)+I*(k*ey*ey/8)));
  double c=cos(roll),s=sin(roll);
  double complex a11=ax*c*c+ay*s*s,a22=ax*s*s+ay*c*c,a12=(ax-ay)*c*s;
  double r11=4/(rx*rx),r22=4/(ry*ry),X=dx+z*tx,Y=dy+z*ty;
  double complex sx=-I*k*tx,sy=-I*k*ty,b1=2*(a11*X+a12*Y)+sx,b2=2*(a12*X+a22*Y)+sy,m11=a11+r11,m22=a22+r22;
  double complex det=m11*m22-a12*a12,q=(b1*b1*m22-2*b1*b2*a12+b2*b2*m11)/(4*det),c0=-(a11*X*X+2*a12*X*Y+a22*Y*Y)-sx*X-sy*Y;
  double dA=creal(a11)*creal(a22)-creal(a12)*creal(a12);
  return exp(2*creal(q+c0))/cabs(det)*4*sqrt(dA*r11*r22);
}
int main(void){int N=4000000;double s=0;struct timespec a,b;clock_gettime(CLOCK_MONOTONIC,&a);unsigned x=1;
 for(int i=0;i<N;i++){x=x*1664525u+1013904223u;double u=(x>>8)/16777216.0-.5;s+=joint(1.55,1,10.4,10.2,3.2+u*.1,2.8,u,-u*.5,5+u,.01*u,-.01*u,.02*u,0,0);}
 clock_gettime(CLOCK_MONOTONIC,&b);double t=b.tv_sec-a.tv_sec+1e-9*(b.tv_nsec-a.tv_nsec);printf("%.3f Mcalls/s (sum %.6f)\n",N/t/1e6,s);}
